import { spawn } from "node:child_process";
import { appendFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { emptyFolder, main, tickwright } from "./cli.ts";

/** Two dead times and 15 seeds of a clock with nothing but timing noise. */
const small = [
  ...["sweep", "school-laboratory", "--vary", "counter.dead_time_s=0,0.5"],
  ...["--seeds", "15", "--length", "200"],
];

const summaryOf = (cwd: string, folder: string) =>
  readFileSync(join(cwd, folder, "summary.csv"), "utf8");

/** Whole lines of a journal, its header among them; what is cut off at the end is none. */
const linesOf = (path: string) =>
  existsSync(path) ? readFileSync(path, "utf8").split("\n").length - 1 : 0;

const briefly = () => new Promise((done) => setTimeout(done, 10));

describe("tickwright sweep", () => {
  it("writes a row a run, the values varying slowest and the seed fastest", () => {
    const cwd = emptyFolder();
    const { status, stdout, stderr } = tickwright([...small, "--json", "--out", "a"], { cwd });
    expect([status, stderr]).toEqual([0, ""]);
    const result = JSON.parse(stdout);
    expect(result).toMatchObject({ schema_version: 1, runs: 30, summary: "a/summary.csv" });
    const rows: Record<string, string>[] = parse(summaryOf(cwd, "a"), { columns: true });
    expect(rows.map((row) => [row["counter.dead_time_s"], row.seed])).toEqual(
      ["0", "0.5"].flatMap((value) =>
        Array.from({ length: 15 }, (_, i) => [value, `school-1-${i + 1}`]),
      ),
    );
    // A perfect time base and a steady clock: both truths are the offset in the file, 1e-6.
    for (const row of rows) {
      expect(Number(row.line_fit_truth_rate_over_run)).toBeCloseTo(1e-6, 12);
      expect(Number(row.mean_of_readings_truth_steady_rate)).toBeCloseTo(1e-6, 12);
    }
    const covered = rows.filter((row) => row.line_fit_covered === "true").length;
    expect(result.groups[0].methods[2].covered + result.groups[1].methods[2].covered).toBe(covered);
  });

  it("does in each row the run that its values and its seed make", () => {
    const cwd = emptyFolder();
    tickwright([...small, "--out", "a"], { cwd });
    const rows: Record<string, string>[] = parse(summaryOf(cwd, "a"), { columns: true });
    const row = rows[20]!;
    const set = `counter.dead_time_s=${row["counter.dead_time_s"]}`;
    const run = tickwright(
      [
        ...["run", "school-laboratory", "--length", "200", "--json"],
        ...["--seed", row.seed!, "--set", set],
      ],
      { cwd },
    );
    const { estimates } = JSON.parse(run.stdout);
    for (const { method, rate, standard_uncertainty, truth } of estimates) {
      expect(Number(row[`${method}_rate`])).toBe(rate);
      expect(Number(row[`${method}_standard_uncertainty`])).toBe(standard_uncertainty);
      expect(Number(row[`${method}_truth_rate_over_run`])).toBe(truth.rate_over_run);
    }
  });

  it("writes the same bytes whatever the number of workers", () => {
    const cwd = emptyFolder();
    for (const workers of ["1", "2", "5"]) {
      tickwright([...small, "--workers", workers, "--out", workers], { cwd });
    }
    expect(summaryOf(cwd, "2")).toBe(summaryOf(cwd, "1"));
    expect(summaryOf(cwd, "5")).toBe(summaryOf(cwd, "1"));
  });

  it("frees the intervals from the known offset of the time base before it looks for the truth", () => {
    const cwd = emptyFolder();
    const shifted = (offset: string) => {
      const set = `counter.timebase={fractional_offset: ${offset}, uncertainty: 1e-3}`;
      const args = [...small, "--set", set, "--json", "--out", offset];
      return JSON.parse(tickwright(args, { cwd }).stdout).groups[0].methods[2];
    };
    // Uncertainties are some 1e-6: an offset of 1e-4 would leave no interval with its truth in it.
    const [none, large] = [shifted("0"), shifted("1e-4")];
    expect(large.rms_error).toBeGreaterThan(20 * none.rms_error);
    expect(large.covered).toBeGreaterThan(10);
  });

  it("loses and repeats nothing after it was killed", async () => {
    const cwd = emptyFolder();
    const args = [...small, "--seeds", "200", "--length", "40", "--set", "recording=lazy"];
    tickwright([...args, "--out", "whole"], { cwd });
    const journal = join(cwd, "killed/.sweep-journal");
    for (const rows of [1, 40, 110]) {
      const child = spawn(process.execPath, [main, ...args, "--resume", "--out", "killed"], {
        cwd,
      });
      while (linesOf(journal) <= rows && child.exitCode === null) await briefly();
      child.kill("SIGKILL");
      await new Promise((done) => child.on("close", done));
      // As if the last row had been cut off in the middle.
      appendFileSync(journal, "01234567\t399\t0.5,school-1-200");
    }
    const complete = linesOf(journal) - 1;
    expect(complete).toBeLessThan(400);
    const { status, stderr } = tickwright([...args, "--resume", "--out", "killed"], { cwd });
    expect([status, stderr]).toEqual([0, `${complete} of 400 runs were there.\n`]);
    expect(summaryOf(cwd, "killed")).toBe(summaryOf(cwd, "whole"));
    expect(readdirSync(join(cwd, "killed")).sort()).toEqual(["datapackage.json", "summary.csv"]);
    const again = tickwright([...args, "--resume", "--out", "killed", "--json"], { cwd });
    expect([again.status, again.stderr]).toEqual([0, "All runs are there already.\n"]);
    expect(JSON.parse(again.stdout).runs).toBe(400);
  });

  it("keeps what is complete when interrupted, and says so", async () => {
    const cwd = emptyFolder();
    const args = [...small, "--seeds", "5000", "--out", "a"];
    const child = spawn(process.execPath, [main, ...args], { cwd });
    let said = "";
    child.stderr.on("data", (data) => {
      said += data;
    });
    const journal = join(cwd, "a/.sweep-journal");
    while (linesOf(journal) < 5 && child.exitCode === null) await briefly();
    child.kill("SIGTERM");
    const status = await new Promise((done) => child.on("close", done));
    expect(status).toBe(130);
    const kept = Number(/^Interrupted: (\d+) of 10000 runs are kept in a;/.exec(said)?.[1]);
    const lines = readFileSync(journal, "utf8").trimEnd().split("\n").slice(1);
    expect(kept).toBe(lines.length);
    expect(new Set(lines.map((line) => line.split("\t")[1])).size).toBe(kept);
    const anew = tickwright(args, { cwd });
    expect([anew.status, anew.stderr]).toEqual([
      2,
      "tickwright: a: an unfinished sweep is there; go on with it by --resume, or give --force to begin anew\n",
    ]);
  });

  it.each([
    ["counter.gate_s", /--vary counter\.gate_s: must have the form PATH=V1,V2/],
    ["counter.gate_s=1,,2", /has an empty value between its commas/],
    ["counter.gate_s=1,1.0", /has the value 1\.0 twice/],
    ["counter.gat_s=1,2", /--vary counter\.gat_s=1: counter\.gat_s: .*gate_s/],
    ["counter.gate_s=1,-2", /--vary counter\.gate_s=-2: counter\.gate_s: .*-2/],
    ["counter.gate_s=1,soon", /--vary counter\.gate_s=soon: counter\.gate_s: /],
    ["seed=a,b", /seeds are varied by --seeds/],
  ])("refuses --vary %s before anything is simulated", (vary, message) => {
    const cwd = emptyFolder();
    const { status, stderr } = tickwright(
      ["sweep", "school-laboratory", "--vary", vary, "--out", "a"],
      { cwd },
    );
    expect(status).toBe(2);
    expect(stderr).toMatch(message);
    expect(existsSync(join(cwd, "a"))).toBe(false);
  });

  it("does not go on with another sweep than the one that is there", () => {
    const cwd = emptyFolder();
    tickwright([...small, "--out", "a"], { cwd });
    const other = tickwright([...small, "--seeds", "16", "--resume", "--out", "a"], { cwd });
    expect(other.status).toBe(2);
    expect(other.stderr).toMatch(/a: the sweep there is another one; it differs in --seeds/);
    writeFileSync(
      join(cwd, "own.yaml"),
      "length_s: 10\nclock: {tick_hz: 1}\nreference: {nominal_hz: 1}\ncounter: {gate_s: 1}\n",
    );
    const seedless = tickwright(["sweep", "own.yaml", "--seeds", "4", "--shard", "1/2"], { cwd });
    expect([seedless.status, seedless.stderr.includes("--seed")]).toEqual([2, true]);
  });
});
