import { bench, describe } from "vitest";
import { estimateRates } from "../../src/analysis/rate/estimate-rates.ts";
import { backToBackRecord, coverage, deadTimeRecord } from "../analysis/rate/coverage-harness.ts";
import type { MadeNoise } from "../analysis/rate/power-law-noise.ts";

/**
 * Coverage of the rate estimates' intervals: `npx vitest bench --run coverage` prints the table. COVERAGE_SEEDS
 * (default 2000) and COVERAGE_READINGS (default 20,200,2000) make it shorter.
 *
 * Columns: how often the method applies; share of intervals that hold the rate over the run, and their median
 * width over that of who knows the noise; the same of the steady intervals that are given.
 */
const seeds = Number(process.env.COVERAGE_SEEDS ?? 2000);
const lengths = (process.env.COVERAGE_READINGS ?? "20,200,2000").split(",").map(Number);
const scenarios: Record<string, MadeNoise> = {
  "white PM": { measurement: 1 },
  "white FM": { whiteFm: 1 },
  "white FM, white PM a tenth": { whiteFm: 1, measurement: 0.1 },
  "flicker FM, white PM": { flickerFm: 1, measurement: 1 },
  "flicker FM, white PM x30": { flickerFm: 1, measurement: 30 },
  "random-walk FM, white PM": { randomWalkFm: 1, measurement: 1 },
  "random-walk FM, white PM x100": { randomWalkFm: 1, measurement: 100 },
  "white PM, slow beat": { measurement: 1, beat: [1, 0.113] },
};

const percent = (share: number) =>
  (Number.isFinite(share) ? (100 * share).toFixed(1) : "–").padStart(6);
const ratio = (value: number) => (Number.isFinite(value) ? value.toFixed(2) : "–").padStart(6);

function printTable(): void {
  console.log(
    `${"noise".padEnd(30)} ${"K".padStart(5)} method           applies    run  width | given steady  width`,
  );
  for (const k of lengths) {
    for (const [name, noise] of Object.entries(scenarios)) {
      for (const c of coverage(name, k, noise, seeds)) {
        console.log(
          `${name.padEnd(30)} ${String(k).padStart(5)} ${c.method.padEnd(16)} ${percent(c.applies / seeds)} ${percent(c.covered)} ${ratio(c.width)} |${percent(c.steadyGiven / seeds)} ${percent(c.steadyCovered)} ${ratio(c.steadyWidth)}`,
        );
      }
    }
    printDeadTime(k);
  }
}

function printDeadTime(k: number): void {
  let covered = 0;
  let given = 0;
  let steady = 0;
  for (let s = 0; s < seeds; s++) {
    const record = deadTimeRecord(k, { reading: 1 }, `dead ${k} ${s}`);
    const { interval95, steadyInterval95 } = estimateRates(record.readings)[0]!;
    if (interval95[0] <= record.overRun && record.overRun <= interval95[1]) covered++;
    if (steadyInterval95 === null) continue;
    given++;
    if (steadyInterval95[0] <= record.steady && record.steady <= steadyInterval95[1]) steady++;
  }
  console.log(
    `${"white, dead time".padEnd(30)} ${String(k).padStart(5)} mean_of_readings ${percent(1)} ${percent(covered / seeds)}        |${percent(given / seeds)} ${percent(steady / given)}`,
  );
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
