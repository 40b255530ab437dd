import { spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, main } from "../cli/cli.ts";

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

describe("hard but possible cases", () => {
  it.each(hard)(
    "%s",
    (line, due) => {
      const { status, stdout, stderr } = spawnSync(process.execPath, [main, ...line.split(" ")], {
        cwd,
        encoding: "utf8",
        timeout: 20_000,
        env: { PATH: process.env.PATH ?? "", NO_COLOR: "1" },
      });
      expect([status, due === 0 ? "" : stdout]).toEqual([due, ""]);
      expect(stdout + stderr).not.toMatch(
        /NaN|Infinity|undefined|\n\s+at .*:\d+:\d+|this is a bug/,
      );
    },
    25_000,
  );
});

describe("users' text", () => {
  // ESC [ 2 J clears the screen: ECMA-48, erase in page.
  const clear = "\u001b[2J";

  it.each([
    ["judge", `${clear}.csv`],
    [`${clear}x`],
    ["check", "observatory", "--set", 'title="a\\u001b[2Jb"'],
    ["plan", "observatory", "--length", "6h", "--set", 'title="a\\u001b[2Jb"'],
  ])("never commands the terminal: %j", (...args) => {
    const { stdout, stderr } = spawnSync(process.execPath, [main, ...args], {
      cwd,
      encoding: "utf8",
      timeout: 20_000,
      env: { PATH: process.env.PATH ?? "", NO_COLOR: "1" },
    });
    expect(stdout + stderr).toContain("\ufffd[2J");
    expect(stdout + stderr).not.toContain("\u001b");
  });
});
