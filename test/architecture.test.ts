import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { describe, expect, it } from "vitest";

/** What the stages stand on. */
const ground = ["numeric", "kernel", "noise", "theory", "keys"];
/** The stages of the chain in the order of the signal; they never import each other. */
const stages = ["oscillator", "synthesizer", "drive", "receiver", "clock", "counter"].map(
  (stage) => `stages/${stage}`,
);
/** What those see who ask for readings and show them, but not how events come in order. */
const chain = ["numeric", "noise", ...stages, "scenario", "chain"];
const views = ["view/words", "view/table", "view/chart", "view/report"];

/** Each room of src/ and the rooms it may import: data flows down this table, imports point up it. */
const mayImport: Record<string, readonly string[]> = {
  numeric: [],
  kernel: ["numeric"],
  noise: ["numeric", "kernel"],
  theory: ["numeric", "noise"],
  keys: ["noise"],
  ...Object.fromEntries(stages.map((stage) => [stage, ground])),
  scenario: [...ground, ...stages],
  chain: [...ground, ...stages, "scenario"],
  readings: [],
  log: ["numeric", "readings"],
  analysis: ["numeric", "readings"],
  "noise-model": ["numeric", "noise"],
  judgement: ["numeric", "noise", "readings", "noise-model", "analysis"],
  planning: [...chain, "theory", "readings", "analysis", "judgement"],
  "view/words": ["numeric", "readings", "analysis", "judgement", "planning"],
  "view/table": [
    "numeric",
    "scenario",
    "chain",
    "readings",
    "analysis",
    "judgement",
    "planning",
    "view/words",
  ],
  "view/chart": ["numeric", "readings", "analysis", "judgement", "view/words"],
  "view/report": [
    "numeric",
    "scenario",
    "chain",
    "readings",
    "analysis",
    "judgement",
    "planning",
    "view/words",
    "view/table",
    "view/chart",
  ],
  lab: [...chain, "readings", "analysis", "judgement", "planning", ...views],
  cli: [...chain, "readings", "log", "analysis", "judgement", "planning", ...views],
};

/** The room that a path below src/ belongs to. */
function roomOf(path: string): string {
  const [first, second] = path.split("/");
  return first === "stages" || first === "view" ? `${first}/${second}` : first!;
}

/** Rooms whose results must have the same bits on every engine: no transcendental of the host, no clock. */
const engineRooms = ["numeric", "kernel", "noise", "keys", ...stages, "chain"];

const src = join(import.meta.dirname, "..", "src");
const files = readdirSync(src, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".ts"))
  .map((name) => {
    const text = readFileSync(join(src, name), "utf8");
    const code = text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/^\s*\/\/.*$/gm, "");
    const path = name.split(sep).join("/");
    return { name: path, room: roomOf(path), text, code };
  });

const importsOf = (code: string) =>
  [...code.matchAll(/(?:from|import)\s*\(?\s*"([^"]+)"/g)].map((match) => match[1]!);

const offenders = (test: (file: (typeof files)[number]) => unknown) =>
  files.filter(test).map((file) => file.name);

describe("the rooms of src/", () => {
  it("are the ones in the table, and index.ts", () => {
    expect(offenders((file) => file.name !== "index.ts" && !(file.room in mayImport))).toEqual([]);
  });

  it("import only from rooms above them, through the face of each", () => {
    const wrong = files.flatMap((file) =>
      importsOf(file.code)
        .filter((target) => target.startsWith("."))
        .map((target) =>
          relative(src, join(src, dirname(file.name), target))
            .split(sep)
            .join("/"),
        )
        .filter((path) => file.name !== "index.ts" && roomOf(path) !== file.room)
        .filter(
          (path) =>
            !mayImport[file.room]?.includes(roomOf(path)) || path !== `${roomOf(path)}/index.ts`,
        )
        .map((path) => `${file.name} imports ${path}`),
    );
    expect(wrong).toEqual([]);
  });

  it("are tested through their faces, so that moving a file moves no test", () => {
    const tests = readdirSync(import.meta.dirname, { recursive: true, encoding: "utf8" });
    const wrong = tests
      .filter((name) => name.endsWith(".ts"))
      .flatMap((name) => {
        const path = join(import.meta.dirname, name);
        return importsOf(readFileSync(path, "utf8"))
          .filter((target) => target.startsWith("."))
          .map((target) =>
            relative(src, join(dirname(path), target))
              .split(sep)
              .join("/"),
          )
          .filter((target) => !target.startsWith("../") && target !== "lab/build-page.mjs")
          .filter((target) => target !== `${roomOf(target)}/index.ts`)
          .map((target) => `${name} imports ${target}`);
      });
    expect(wrong).toEqual([]);
  });

  it("touch Node only in cli", () => {
    expect(
      offenders(
        (file) =>
          file.room !== "cli" &&
          (/["']node:/.test(file.code) || /(?<![.\w-])(process|console)\./.test(file.code)),
      ),
    ).toEqual([]);
  });

  it("use portable functions where results must have the same bits everywhere", () => {
    const banned =
      /\bMath\.(log\w*|exp\w*|sinh?|cosh?|tanh?|asinh?|acosh?|atan2?|atanh|pow|cbrt|hypot|random)\b|\*\*|\bDate\b|\bperformance\b/;
    expect(offenders((file) => engineRooms.includes(file.room) && banned.test(file.code))).toEqual(
      [],
    );
  });

  it("raise to powers by the portable function: V8 of Node 20 and of Node 24 differ in all but squares", () => {
    const banned = /\bMath\.pow\b|\*\*=?(?!\s*2\b(?!\.))/;
    expect(offenders((file) => banned.test(file.code))).toEqual([]);
  });

  it("draw no deviates but from a seeded stream, and read no clock outside cli", () => {
    expect(
      offenders(
        (file) =>
          !["cli", "lab"].includes(file.room) &&
          /\bMath\.random\b|\bDate\.now\b|\bperformance\.now\b/.test(file.code),
      ),
    ).toEqual([]);
  });

  it("keep the state of a process to itself: whoever steers it calls it", () => {
    const open =
      /^ {2}(?!private|protected|readonly|static|get |set |return)\w+[?!]?(: [^=(;]+)?( = .*)?;$/gm;
    const exposed = files
      .filter((file) => /class \w+[^{]* implements [^{]*\bProcess\b/.test(file.code))
      .flatMap((file) => [...file.code.matchAll(open)].map(([line]) => `${file.name}: ${line}`));
    expect(exposed).toEqual([]);
  });

  it("hold files of at most 400 lines", () => {
    expect(offenders((file) => file.text.split("\n").length > 400)).toEqual([]);
  });

  it("document every exported function", () => {
    const undocumented = files.flatMap((file) =>
      [...file.text.matchAll(/(\*\/\n)?export (?:async )?function\*? (\w+)/g)]
        .filter((match) => match[1] === undefined)
        .map((match) => `${file.name}: ${match[2]}`),
    );
    expect(undocumented).toEqual([]);
  });
});
