import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { emptyFolder, main } from "../cli/cli.ts";

const cwd = emptyFolder();
writeFileSync(join(cwd, "r.csv"), "period_s\n1.00001\n1.00002\n1.000015\n1.00001\n");
writeFileSync(join(cwd, "empty.yaml"), "");

const commands = ["run", "check", "plan", "budget", "judge", "fit", "merge", "replay", "nonsense"];
const subjects = [
  "school-laboratory",
  "r.csv",
  "empty.yaml",
  ".",
  "",
  "--",
  "no\u001b[2Jsuch",
  "../x",
];
const options = [
  ["--set", "length_s=1e308"],
  ["--set", "__proto__.x=1"],
  ["--set", "counter.gate_s=[1"],
  ["--set", "="],
  ["--seed", ""],
  ["--within", "1e-6"],
  ["--length", "-1"],
  ["--length", "1e300"],
  ["--nominal-period", "1"],
  ["--nominal-period", "NaN"],
  ["--gate", "1e300"],
  ["--gate", "0"],
  ["--readings", "2"],
  ["--readings", "9e99"],
  ["--out", "r.csv"],
  ["--confidence", "1"],
  ["--no-simulation"],
  ["--constructor"],
  ["--json"],
  ["--quiet"],
  ["--set"],
];

const line = fc
  .tuple(
    fc.constantFrom(...commands),
    fc.constantFrom(...subjects),
    fc.subarray(options, { maxLength: 3 }),
  )
  .map(([command, subject, added]) => [command, subject, ...added.flat()]);

describe("any command line", () => {
  it("ends with a documented status, in words and without a stack", () => {
    const seen = new Set<number | null>();
    fc.assert(
      fc.property(line, (args) => {
        // Whole runs are kept short; a command that has no such option says so, which is fine too.
        const words = args[0] === "run" && !args.includes("--readings") ? ["--readings", "2"] : [];
        const { status, stderr } = spawnSync(process.execPath, [main, ...args, ...words], {
          cwd,
          encoding: "utf8",
          input: "",
          timeout: 20_000,
          env: { PATH: process.env.PATH ?? "", NO_COLOR: "1" },
        });
        seen.add(status);
        expect([0, 1, 2, 3]).toContain(status);
        expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+|this is a bug/);
        if (status !== 0 && status !== 1) expect(stderr).not.toBe("");
        if (args.includes("--json") && (status === 2 || status === 3))
          expect(JSON.parse(stderr).error.status).toBe(status);
      }),
      { seed: 61142, numRuns: 40, endOnFailure: true },
    );
    expect([...seen]).toEqual(expect.arrayContaining([0, 2]));
  }, 60_000);
});
