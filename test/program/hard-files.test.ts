import { mkdirSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { sample } from "../scenario/sample.ts";
import { emptyFolder, type Result } from "./cli.ts";
import { Coverage, runInOneProcess } from "./messages/one-process.ts";

/** A scenario file out of the ordinary, the exit status due, and what must be said. */
interface HardFile {
  readonly content: string | Uint8Array;
  readonly status: number;
  readonly says: RegExp;
}

const file = (content: string | Uint8Array, status: number, says: RegExp): HardFile => ({
  content,
  status,
  says,
});
const refused = (content: string | Uint8Array, says: RegExp) => file(content, 2, says);
const taken = (content: string | Uint8Array) => file(content, 0, /^sample\n/);
const bytes = (text: string, encoding: BufferEncoding) => Buffer.from(text, encoding);
const lengthOf = (value: string) => sample.replace("length_s: 20000", `length_s: ${value}`);

/** Each level stands for ten of the one before: 10⁹ at the ninth. */
const bomb = [...Array(9).keys()]
  .map((i) => `l${i}: &l${i} [${Array(10).fill(i === 0 ? "x" : `*l${i - 1}`)}]`)
  .join("\n");

const files: Readonly<Record<string, HardFile>> = {
  "an alias bomb": refused(
    bomb,
    /^tickwright: s\.yaml:1:1: has more aliases than any scenario needs/,
  ),
  "a text nested a million deep": refused("[".repeat(900_000), /is nested more than 40 deep/),
  "sections nested too deep": refused(
    [...Array(50).keys()].map((i) => `${" ".repeat(i)}a:\n`).join(""),
    /is nested more than 40 deep/,
  ),
  "__proto__ as key": refused(
    `${sample}__proto__: { length_s: 5 }\n`,
    /:\d+:1: __proto__: unknown key/,
  ),
  "constructor as key": refused(
    `${sample}constructor: { prototype: 1 }\n`,
    /constructor: unknown key/,
  ),
  "__proto__ within a section": refused(
    sample.replace("{ mean_c: 20 }", "{ __proto__: { mean_c: 5 } }"),
    /environment\.__proto__: unknown key/,
  ),
  "1e308": refused(
    lengthOf("1e308"),
    /length_s: must be at most 1000000000000 s in size, got 1e\+308/,
  ),
  "1e309, beyond a double": refused(lengthOf("1e309"), /length_s: must be a finite number/),
  NaN: refused(lengthOf(".nan"), /length_s: must be a finite number, got NaN/),
  "NaN as JavaScript writes it": refused(lengthOf("NaN"), /must be a number, got the text "NaN"/),
  "minus infinity": refused(lengthOf("-.inf"), /length_s: must be a finite number, got -Infinity/),
  "minus zero": refused(lengthOf("-0"), /length_s: must be > 0, got 0/),
  "the least double": refused(
    lengthOf("5e-324"),
    /length_s: must be 0 or at least 1e-24 s in size/,
  ),
  "a number of a thousand digits": refused(lengthOf("9".repeat(1000)), /length_s: must be/),
  "a hexadecimal number": refused(lengthOf("0x1F"), /length_s|counter\.gate_s/),
  "keys given twice": refused(
    `${sample}length_s: 5\n`,
    /:\d+:1: the key "length_s" is given twice/,
  ),
  "tabs as indentation": refused(sample.replace(/^ {2}nominal/m, "\tnominal"), /is not YAML: Tabs/),
  "an empty file": refused("", /s\.yaml:1:1: is empty; begin with a copy of a demo/),
  "blanks and line ends alone": refused(" \r\n\n  \n", /s\.yaml:1:1: is empty/),
  "random bytes": refused(
    Uint8Array.from({ length: 4096 }, (_, i) => (i * i * 31 + 7 * i) % 256),
    /s\.yaml:\d+:\d+: is not text in UTF-8 from here on/,
  ),
  "a PNG signature": refused(
    Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10),
    /is not text in UTF-8/,
  ),
  "Latin-1": refused(
    bytes(sample.replace("sample", "Zürich"), "latin1"),
    /s\.yaml:1:9: is not text/,
  ),
  "UTF-16": refused(bytes(`\ufeff${sample}`, "utf16le"), /s\.yaml:1:1: is not text in UTF-8/),
  "a CSV file": refused("period_s\n1.0\n1.1\n", /is no scenario: it must have keys with values/),
  "a page": refused("<!doctype html>\n<html></html>\n", /is no scenario|is not YAML/),
  "a byte order mark": taken(`\ufeff${sample}`),
  CRLF: taken(sample.replaceAll("\n", "\r\n")),
  "no line end at the end": taken(sample.trimEnd()),
  "five thousand lines of comments": taken(`${"# x\n\n".repeat(5000)}${sample}`),
  "an anchor and its alias": taken(
    sample.replace("{ white_fm_adev_1s: 2e-11 }", "&n { white_fm_adev_1s: 2e-11 }"),
  ),
  "a title of ten thousand signs": file(
    sample.replace("title: sample", `title: ${"é".repeat(10_000)}`),
    0,
    /^é{10000}\n/,
  ),
};

const names = Object.keys(files);
const results = resultsOf(names.map((name) => files[name]!.content));

function resultsOf(contents: readonly (string | Uint8Array)[]): Result[] {
  const calls = contents.map((content) => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, "s.yaml"), content);
    return { cwd, args: ["check", "s.yaml"] };
  });
  return runInOneProcess(calls, new Coverage());
}

describe("a scenario file", () => {
  it.each(names.map((name, i) => [name, i] as const))("of %s", (name, i) => {
    const { status, says } = files[name]!;
    const found = results[i]!;
    expect(found.status).toBe(status);
    expect(status === 0 ? found.stdout : found.stderr).toMatch(says);
    expect(found.stdout + found.stderr).not.toMatch(/\n\s+at .*:\d+:\d+|this is a bug/);
    if (status === 0) return;
    // One message, on one line of a length that can be read.
    expect(found.stdout).toBe("");
    expect(found.stderr).toMatch(/^tickwright: [^\n]{1,400}\n$/);
  });

  it("of 100 MB is refused by its size, a folder and a device by what they are", () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, "s.yaml"), "");
    truncateSync(join(cwd, "s.yaml"), 100_000_000);
    mkdirSync(join(cwd, "d.yaml"));
    const calls = ["s.yaml", "d.yaml", "/dev/zero"].map((name) => ({ cwd, args: ["check", name] }));
    const [large, folder, device] = runInOneProcess(calls, new Coverage());
    expect(large).toMatchObject({ status: 2, stdout: "" });
    expect(large!.stderr).toMatch(
      /^tickwright: s\.yaml: is larger than a scenario can be \(1 MB\)/,
    );
    expect(folder).toMatchObject({ status: 3, stdout: "" });
    expect(folder!.stderr).toBe(
      "tickwright: d.yaml: could not read: it is a folder; give a file\n",
    );
    expect(device).toMatchObject({ status: 2, stdout: "" });
    expect(device!.stderr).toMatch(/^tickwright: \/dev\/zero: is larger than a scenario can be/);
  });
});
