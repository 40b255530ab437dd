import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readXml } from "../chart/read-xml.ts";
import { emptyFolder, tickwright } from "./cli.ts";
import { LiveProcess } from "./live-process.ts";

const run = "run school-laboratory --readings 3 --quiet --out o".split(" ");
const sweep = "sweep school-laboratory --seeds 2 --length 100 --seed s --out o".split(" ");

describe("a folder with a trap in it", () => {
  it.each([
    [
      "a link to a file elsewhere",
      (path: string, cwd: string) => symlinkSync(join(cwd, "precious"), path),
    ],
    [
      "a link to what is not there",
      (path: string, cwd: string) => symlinkSync(join(cwd, "new"), path),
    ],
    ["a pipe", (path: string) => void spawnSync("mkfifo", [path])],
    ["a folder", (path: string) => void mkdirSync(path)],
  ])("as journal of a sweep, %s, is refused and left alone", (_, trap) => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, "precious"), "keep");
    mkdirSync(join(cwd, "o"));
    trap(join(cwd, "o", ".sweep-journal"), cwd);
    for (const more of [[], ["--resume"], ["--force"]]) {
      const { status, stdout, stderr } = tickwright([...sweep, ...more], { cwd });
      expect([status, stdout]).toEqual([2, ""]);
      expect(stderr).toBe(
        "tickwright: o/.sweep-journal: is no file that sweep wrote; take it away, or give another folder\n",
      );
    }
    expect(readFileSync(join(cwd, "precious"), "utf8")).toBe("keep");
    expect(readdirSync(cwd).sort()).toEqual(["o", "precious"]);
    expect(readdirSync(join(cwd, "o"))).toEqual([".sweep-journal"]);
  });

  it.each([
    ["a link", (path: string, cwd: string) => symlinkSync(join(cwd, "precious"), path)],
    ["a pipe", (path: string) => void spawnSync("mkfifo", [path])],
  ])("as lock, %s, is not read, followed or taken away", (_, trap) => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, "precious"), "1");
    mkdirSync(join(cwd, "o"));
    trap(join(cwd, "o", ".tickwright-lock"), cwd);
    expect(tickwright(run, { cwd })).toMatchObject({ status: 3, stdout: "" });
    expect(readdirSync(join(cwd, "o"))).toEqual([".tickwright-lock"]);
    expect(readFileSync(join(cwd, "precious"), "utf8")).toBe("1");
  });

  it("is gone again, with its lock, where the disk has no room for the lock", () => {
    const cwd = emptyFolder();
    const hook =
      "import fs from 'node:fs';import {syncBuiltinESMExports} from 'node:module';" +
      "fs.writeSync=(fd)=>{throw Object.assign(new Error('full'),{code:'ENOSPC'})};syncBuiltinESMExports();";
    writeFileSync(join(cwd, "hook.mjs"), hook);
    const env = { NODE_OPTIONS: `--import ${join(cwd, "hook.mjs")}` };
    const { status, stderr } = tickwright(
      run.map((w) => (w === "o" ? "a/b" : w)),
      { cwd, env },
    );
    expect(status).toBe(3);
    expect(stderr).toMatch(/could not write in this folder: no space is left on the device/);
    expect(readdirSync(cwd)).toEqual(["hook.mjs"]);
  });
});

describe("a command killed when its files are about to get their names", () => {
  const hook =
    "import fs from 'node:fs';import {syncBuiltinESMExports} from 'node:module';" +
    "fs.renameSync=()=>{fs.writeSync(2,'standing still');" +
    "Atomics.wait(new Int32Array(new SharedArrayBuffer(4)),0,0)};syncBuiltinESMExports();";
  const part = (i: number) =>
    `sweep school-laboratory --seeds 2 --length 100 --shard ${i}/2 --out p${i}`;

  it.each([
    ["merge p1 p2 --out o", "SIGKILL"],
    ["merge p1 p2 --out o", "SIGTERM"],
    ["lesson school-laboratory --out o/l.html", "SIGKILL"],
    ["lesson school-laboratory --out o/l.html", "SIGINT"],
  ] as const)("%s, by %s, leaves nothing that the next one trips over", async (words, signal) => {
    const cwd = emptyFolder();
    if (words.startsWith("merge")) for (const i of [1, 2]) tickwright(part(i).split(" "), { cwd });
    writeFileSync(join(cwd, "hook.mjs"), hook);
    const env = { NODE_OPTIONS: `--import ${join(cwd, "hook.mjs")}` };
    const live = new LiveProcess(words.split(" "), cwd, { env });
    expect(await live.until(() => live.stderr.includes("standing still"))).toBe(true);
    await live.stopBy(signal);
    const left = readdirSync(join(cwd, "o"));
    expect(left.filter((name) => !/^\.(tickwright-lock|.+\.part-\d+)$/.test(name))).toEqual([]);
    expect(tickwright(words.split(" "), { cwd })).toMatchObject({ status: 0, stderr: "" });
    const names = words.startsWith("merge") ? ["datapackage.json", "summary.csv"] : ["l.html"];
    expect(readdirSync(join(cwd, "o")).sort()).toEqual(names);
  });
});

describe("a title made to break out of a picture", () => {
  it.each([
    `</text><script>alert(1)</script>`,
    `]]><!-- & " ' &amp; <`,
    "\u0007\u0001\ufffe\u202e",
  ])("is text there for an XML parser: %j", (title) => {
    const cwd = emptyFolder();
    const words = [
      "plan",
      "school-laboratory",
      "--within",
      "1e-6",
      "--plot",
      "--out",
      "p",
      "--title",
      title,
    ];
    expect(tickwright(words, { cwd }).status).toBe(0);
    const svg = readFileSync(join(cwd, "p/plan.svg"), "utf8");
    // The reader begins behind the XML declaration.
    const tree = readXml(svg.replace(/^<\?xml [^>]*\?>\s*/, "").trimEnd());
    expect(tree.tag).toBe("svg");
    expect(svg).not.toMatch(/<script|<!--/);
  });
});

describe("an empty name", () => {
  it.each([
    "run school-laboratory",
    "lesson school-laboratory",
    "sweep school-laboratory --seeds 2",
    "plan school-laboratory --within 1e-6 --plot",
    "budget school-laboratory --plot",
    "judge r.txt --plot",
    "fit r.txt",
    "merge a b",
  ])("with --out is refused: %s", (words) => {
    const { status, stderr } = tickwright([...words.split(" "), "--out", ""], {
      cwd: emptyFolder(),
    });
    expect([status, stderr]).toEqual([
      2,
      "tickwright: --out: must not be empty; give a name, or leave it out\n",
    ]);
  });
});

describe("a number without an inverse", () => {
  it.each([
    ["in a log", "1e-310 Hz\n1e-310 Hz\n", [], /^tickwright: r\.txt: holds no readings/],
    [
      "of --nominal-frequency",
      "1\n1\n",
      ["--nominal-frequency", "1e-310"],
      /must be a number of at least 1e-16/,
    ],
    [
      "of --nominal-period",
      "1\n1\n",
      ["--nominal-period", "1e-310"],
      /must be a number of at least 1e-16/,
    ],
  ])("%s is refused by judge and fit alike", (_, text, options, says) => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, "r.txt"), text);
    const [judged, fitted] = ["judge", "fit"].map((command) =>
      tickwright([command, "r.txt", ...options], { cwd }),
    );
    expect(judged).toMatchObject({ status: 2, stdout: "" });
    expect(judged!.stderr).toMatch(says);
    expect(fitted).toEqual({
      ...judged,
      stderr: judged!.stderr.replace("judge --help", "fit --help"),
    });
  });
});

describe("what a spreadsheet would run", () => {
  // CSV injection: OWASP Web Security Testing Guide, on cells that begin with = + - @ (from memory).
  it.each([
    ["=1+1", []],
    ["+x", []],
    ["-1", []],
    ["@sum", []],
    ["s", ["--vary", "clock.tick_hz==1+1,2"]],
  ])("is no seed and no value of a sweep: %s", (seed, more) => {
    const words = ["sweep", "school-laboratory", "--seeds", "2", "--length", "100", "--seed", seed];
    const { status, stdout, stderr } = tickwright([...words, ...more], { cwd: emptyFolder() });
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/would be run as a formula where a spreadsheet opens summary\.csv/);
  });
});
