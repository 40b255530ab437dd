import { bench, describe } from "vitest";
import { estimateRates } from "../../src/analysis/rate/estimate-rates.ts";
import { coverageCases } from "../analysis/rate/coverage-cases.ts";
import { backToBackRecord, type Coverage, coverage } from "../analysis/rate/coverage-harness.ts";

/**
 * Coverage of the rate estimates' intervals: `npx vitest bench --run --dir test coverage` prints the table.
 * COVERAGE_SEEDS (default 2000), COVERAGE_READINGS (default 20,200,2000) and COVERAGE_CASES (a part of their names)
 * make it shorter.
 *
 * Columns: how often the method applies; share of intervals that hold the rate over the run, and their median
 * width over that of who knows the noise; how often a steady interval is given, and the same of it. The mean of
 * back-to-back readings is the end-to-end estimate, and not printed again.
 */
const seeds = Number(process.env.COVERAGE_SEEDS ?? 2000);
const lengths = (process.env.COVERAGE_READINGS ?? "20,200,2000").split(",").map(Number);
const wanted = process.env.COVERAGE_CASES ?? "";

const percent = (share: number) =>
  (Number.isFinite(share) ? (100 * share).toFixed(1) : "–").padStart(6);
const ratio = (value: number) => (Number.isFinite(value) ? value.toFixed(2) : "–").padStart(6);

function printTable(): void {
  console.log(
    `${"noise".padEnd(30)} ${"K".padStart(5)} method           applies    run  width | given steady  width`,
  );
  for (const k of lengths) {
    for (const [name, make] of Object.entries(coverageCases)) {
      if (!name.includes(wanted)) continue;
      const found = coverage(name, k, make, seeds);
      const shown = found[1]!.applies > 0 ? found.slice(1) : found.slice(0, 1);
      for (const c of shown) console.log(rowOf(name, k, c));
    }
  }
}

function rowOf(name: string, k: number, c: Coverage): string {
  const run = `${percent(c.applies / seeds)} ${percent(c.covered)} ${ratio(c.width)}`;
  const steady = `${percent(c.steadyGiven / seeds)} ${percent(c.steadyCovered)} ${ratio(c.steadyWidth)}`;
  return `${name.padEnd(30)} ${String(k).padStart(5)} ${c.method.padEnd(16)} ${run} |${steady}`;
}

if (seeds > 0) printTable();

describe("one estimate of a rate", () => {
  for (const k of [200, 20000]) {
    const { readings } = backToBackRecord(k, { measurement: 1 }, `bench ${k}`);
    bench(`${k} readings`, () => {
      estimateRates(readings);
    });
  }
});
