import { setTimeout } from "node:timers/promises";
import { bench, describe } from "vitest";
import { estimateRates } from "../../src/judgement/index.ts";
import {
  backToBackRecord,
  type Coverage,
  coverage,
  type IntervalCoverage,
} from "../judgement/coverage-harness.ts";
import { coverageCases } from "../prove/analysis/coverage-cases.ts";

/**
 * Coverage of the rate estimates' intervals: `npx vitest bench --run --dir test coverage` prints the table.
 *
 * COVERAGE_SEEDS (default 2000), COVERAGE_READINGS (default 20,200,2000) and COVERAGE_CASES (names with ; between
 * them, or parts of names where there is no such case) make it shorter, or take it up where it was left: a row
 * depends on nothing but its case, its number of readings and the seeds.
 *
 * Of each of the two intervals: the share of records it is given for (about the rate over the run: for which the
 * estimator says that it applies), the share of those that hold their truth, their median half-width, that of who
 * knows the noise, and the one over the other. The mean of back-to-back readings is the end-to-end estimate, and not
 * printed again.
 */
const seeds = Number(process.env.COVERAGE_SEEDS ?? 2000);
const lengths = (process.env.COVERAGE_READINGS ?? "20,200,2000").split(",").map(Number);
const wanted = (process.env.COVERAGE_CASES ?? "").split(";").map((name) => name.trim());

const isWanted = (name: string) =>
  wanted.some((part) => (part in coverageCases ? name === part : name.includes(part)));

const percent = (share: number) =>
  (Number.isFinite(share) ? (100 * share).toFixed(1) : "–").padStart(6);
const ratio = (value: number) => (Number.isFinite(value) ? value.toFixed(2) : "–").padStart(6);
const width = (value: number) =>
  (Number.isFinite(value) ? value.toExponential(2) : "–").padStart(9);

async function printTable(): Promise<void> {
  const columns = "given   held     width  informed  ratio";
  const start = `${"noise".padEnd(30)} ${"K".padStart(5)} ${"method".padEnd(16)}`;
  console.log(`${start} | run: ${columns} | steady: ${columns}`);
  for (const k of lengths) {
    for (const [name, make] of Object.entries(coverageCases)) {
      if (!isWanted(name)) continue;
      const found = coverage(name, k, make, seeds);
      const shown = found[1]!.run.given > 0 ? found.slice(1) : found.slice(0, 1);
      console.log(shown.map((c) => rowOf(name, k, c)).join("\n"));
      // Lets go of the row at once, so that nothing is lost where the table is broken off.
      await setTimeout(100);
    }
  }
}

function rowOf(name: string, k: number, c: Coverage): string {
  const start = `${name.padEnd(30)} ${String(k).padStart(5)} ${c.method.padEnd(16)}`;
  return `${start} |    ${figures(c.run)} |       ${figures(c.steady)}`;
}

function figures({ given, covered, halfWidth, informed, ratio: over }: IntervalCoverage): string {
  return `${percent(given / seeds)} ${percent(covered)} ${width(halfWidth)} ${width(informed)} ${ratio(over)}`;
}

if (seeds > 0) await printTable();

describe("one estimate of a rate", () => {
  for (const k of [200, 20000]) {
    const { readings } = backToBackRecord(k, { measurement: 1 }, `bench ${k}`);
    bench(`${k} readings`, () => {
      estimateRates(readings);
    });
  }
});
