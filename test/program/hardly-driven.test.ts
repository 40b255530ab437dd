import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { emptyFolder, tickwright } from "./cli.ts";

/** The observatory's clock, without a drive for most of a run: it goes by its own oscillator then. */
const offFor = (seconds: number) => [
  ...["--set", "receiver.fallback={after_s: 1.5, fractional_offset: -6.1e-5}"],
  ...["--set", `disturbances=[{at_s: 300, kind: drive_off, for_s: ${seconds}}]`],
];

describe("a clock mostly on its own oscillator", () => {
  const cwd = emptyFolder();
  const run = (...args: string[]) => tickwright(args, { cwd });
  run("run", "observatory", "--length", "3000", "--gate", "10", ...offFor(2000), "--out", "a");

  it("is judged by the flags of its readings: no estimate applies, none looks ahead", () => {
    const { status, stdout } = run("judge", "a/readings.csv", "--json", "--ahead", "1d");
    const judged = JSON.parse(stdout);
    expect(status).toBe(0);
    for (const { applies, why } of judged.estimates) {
      expect(applies).toBe(false);
      expect(why).toMatch(/by its flags the clock ran on its own oscillator in 6\d % of/);
    }
    expect(judged.ahead).toEqual([]);
    expect(run("judge", "a/readings.csv").stdout).toMatch(/^Rate: .*with no honest uncertainty/);
  });

  it("is not taken for a steady clock without the flags either", () => {
    const text = readFileSync(join(cwd, "a", "readings.csv"), "utf8");
    writeFileSync(join(cwd, "blind.csv"), text.replaceAll("fallback", ""));
    const { stdout } = run("judge", "blind.csv", "--json");
    for (const { applies, why } of JSON.parse(stdout).estimates) {
      expect([applies, why]).toEqual([false, expect.stringMatching(/run otherwise than the rest/)]);
    }
  });

  it("has no rate in a sweep, but its truth, and the summary says so", () => {
    const sweep = ["sweep", "observatory", "--length", "3000", "--seeds", "2", ...offFor(2000)];
    const told = run(...sweep, "--out", "s");
    expect([told.status, told.stderr]).toEqual([0, expect.not.stringContaining("error")]);
    expect(told.stdout).toMatch(/no run gave a rate: too few readings, or more than a tenth/);
    const summary = readFileSync(join(cwd, "s", "summary.csv"), "utf8");
    const rows: Record<string, string>[] = parse(summary, { columns: true });
    for (const row of rows) {
      expect(row.mean_of_readings_rate).toBe("");
      expect(row.mean_of_readings_covered).toBe("");
      expect(row.mean_of_readings_applies).toBe("false");
      expect(Number.isFinite(Number.parseFloat(row.mean_of_readings_truth_rate_over_run!))).toBe(
        true,
      );
    }
    const { groups } = JSON.parse(run(...sweep, "--json", "--out", "s2").stdout);
    expect(groups[0].methods[0]).toMatchObject({ runs: 0, without_rate: 2, judged: 0 });
  });
});
