import { spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { demo } from "../scenario/sample.ts";
import { emptyFolder, main } from "./cli.ts";

const cwd = emptyFolder();
writeFileSync(join(cwd, "r.csv"), "period_s\n1.00001\n1.00002\n1.000015\n1.00001\n");
mkdirSync(join(cwd, "observatory"));

/** Hard, and what is due: 0 an answer, 2 a refusal in words. */
const hard: readonly (readonly [string, number])[] = [
  ["check observatory", 0],
  ["check school-laboratory --set length_s=1", 0],
  ["plan school-laboratory --length 10 --set length_s=1", 0],
  ["check harbour-tide-gauge --set drive.carrier_hz=10", 0],
  ["budget station-dial --no-simulation --set drive.carrier_hz=1.01", 0],
  ["plan observatory --within 1e-9 --set counter.timebase=reference", 0],
  ["plan observatory --within 0.99", 0],
  ["plan observatory --within 1", 2],
  ["plan observatory --within 1e300", 2],
  ["plan observatory --within 1e-300", 0],
  ["plan observatory --length 1e-300", 0],
  ["plan observatory --length 1e16", 0],
  ["plan observatory --length 1e300", 2],
  ["judge r.csv --nominal-period 1 --gate 1", 0],
  ["judge r.csv --nominal-period 1 --gate 1e300", 2],
  ["judge r.csv --nominal-period 1e300 --gate 1", 2],
  ["judge r.csv --nominal-period 1e-300 --gate 1", 2],
];

/** Runs the program with at most a minute of CPU time: by the wall clock a loaded machine would be too slow. */
const soon = (args: readonly string[]) =>
  spawnSync("bash", ["-c", 'ulimit -t 60; exec "$@"', "bash", process.execPath, main, ...args], {
    cwd,
    encoding: "utf8",
    env: { PATH: process.env.PATH ?? "", NO_COLOR: "1" },
  });

describe("hard but possible cases", () => {
  it.each(hard)("%s", (line, due) => {
    const { status, stdout, stderr } = soon(line.split(" "));
    expect([status, due === 0 ? "" : stdout]).toEqual([due, ""]);
    expect(stdout + stderr).not.toMatch(/NaN|Infinity|undefined|\n\s+at .*:\d+:\d+|this is a bug/);
  });
});

describe("users' text", () => {
  // ESC [ 2 J clears the screen, and so does CSI (one character of eight bits) 2 J: ECMA-48, erase in page.
  const clear = "\u001b[2J\u009b2J";
  const title = `title=${JSON.stringify(`a${clear}b`)}`;
  writeFileSync(join(cwd, `${clear}.csv`), "period_s\n1.1\n1.2\n1.15\n1.1\n");
  writeFileSync(join(cwd, `${clear}.yaml`), demo("school-laboratory"));

  it.each([
    ["judge", `no${clear}.csv`],
    ["judge", `${clear}.csv`, "--nominal-period", "1.1", "--plot", "--out", clear],
    ["judge", "r.csv", "--column", clear],
    [`${clear}x`],
    ["check", "observatory", "--set", title],
    ["check", "observatory", "--set", `${clear}=1`],
    ["plan", "observatory", "--length", "6h", "--set", title],
    ["budget", "observatory", "--no-simulation", "--set", title],
    ["run", "school-laboratory", "--readings", "3", "--seed", clear, "--out", `${clear}run`],
    ["run", `${clear}.yaml`, "--readings", "3", "--gate", clear],
    ["lesson", "school-laboratory", "--out", `${clear}.html`],
    ["sweep", "school-laboratory", "--seeds", "2", "--length", "9", "--out", `${clear}sweep`],
    ["merge", clear, "--out", "x"],
    ["replay", clear],
  ])("never commands the terminal: %j", (...args) => {
    const { stdout, stderr } = soon(args);
    expect(stdout + stderr).toContain("\ufffd[2J\ufffd2J");
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
    expect(stdout + stderr).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/);
  });

  it("keeps its own colours where the terminal takes them", () => {
    const { stdout } = spawnSync(process.execPath, [main, "check", "observatory", "--set", title], {
      cwd,
      encoding: "utf8",
      env: { PATH: process.env.PATH ?? "", FORCE_COLOR: "1" },
    });
    // SGR 1 and 22, bold and not (ECMA-48), about the title.
    expect(stdout.split("\n")[0]).toBe("\u001b[1ma\ufffd[2J\ufffd2Jb\u001b[22m");
  });
});
