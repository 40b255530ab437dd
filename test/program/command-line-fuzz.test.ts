import { writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { emptyFolder } from "./cli.ts";
import { Coverage, runInOneProcess } from "./messages/one-process.ts";

const cwd = emptyFolder();
writeFileSync(join(cwd, "r.csv"), "period_s\n1.00001\n1.00002\n1.000015\n1.00001\n");
writeFileSync(join(cwd, "empty.yaml"), "");

const commands = [
  "run",
  "check",
  "plan",
  "budget",
  "judge",
  "fit",
  "merge",
  "replay",
  "sweep",
  "lesson",
  "completion",
  "nonsense",
];
const subjects = [
  "school-laboratory",
  "r.csv",
  "fish",
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
  ["--seeds", "2"],
  ["--vary", "counter.dead_time_s=0,1"],
  ["--vary", "__proto__=1,2"],
  ["--shard", "1/2"],
  ["--shard", "2/1"],
  ["--resume"],
  ["--force"],
  ["--workers", "1"],
  ["--length", "50"],
  ["--out", "new/w"],
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
    const lines = fc.sample(line, { seed: 61142, numRuns: 240 }).map((args) =>
      // Whole runs are kept short; a command that has no such option says so, which is fine too.
      ["run", "sweep"].includes(args[0]!) && !args.includes("--readings")
        ? [...args, "--readings", "2"]
        : args,
    );
    const results = runInOneProcess(
      lines.map((args) => ({ cwd, args })),
      new Coverage(),
    );
    const seen = new Map<string, Set<number | null>>();
    results.forEach(({ status, stderr }, i) => {
      const args = lines[i]!;
      seen.set(args[0]!, (seen.get(args[0]!) ?? new Set()).add(status));
      const told = `${JSON.stringify(args)}: ${stderr}`;
      expect([0, 1, 2, 3], told).toContain(status);
      expect(stderr, told).not.toMatch(/\n\s+at .*:\d+:\d+|this is a bug/);
      if (status !== 0 && status !== 1) expect(stderr, told).not.toBe("");
      if (args.includes("--json") && (status === 2 || status === 3))
        expect(JSON.parse(stderr).error.status, told).toBe(status);
    });
    for (const command of commands) expect([...seen.get(command)!], command).toContain(2);
    expect(new Set([...seen.values()].flatMap((all) => [...all]))).toContain(0);
  });
});
