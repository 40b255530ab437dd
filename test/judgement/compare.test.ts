import { describe, expect, it } from "vitest";
import { compareRecords, judgeReadings } from "../../src/judgement/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";
import { Deviates } from "../prove/noise-model/generators.ts";

/** Readings of ten one-second ticks, back to back, white timing noise of 0.1 ms at each edge, of a clock off by `rate`. */
function record(seed: number, count: number, rate: number): PeriodReadings {
  const deviates = new Deviates(seed);
  const edge = Float64Array.from({ length: count + 1 }, () => 1e-4 * deviates.normal());
  const period = Float64Array.from(
    { length: count },
    (_, i) => 1 / (1 + rate) - (edge[i + 1]! - edge[i]!) / 10,
  );
  const cycles = new Float64Array(count).fill(10);
  return { kind: "period", period, cycles, start: null, nominalPeriod: 1, backToBack: true };
}
const judged = (seed: number, count: number, rate: number, systematicBound = 0) =>
  judgeReadings(record(seed, count, rate), { systematicBound });
const half = ({ interval95: [low, high] }: { interval95: readonly [number, number] }) =>
  (high - low) / 2;

describe("compareRecords", () => {
  it("takes the difference of two rates with the root of the sum of squares of their halves", () => {
    const [a, b] = [judged(1, 60, 0), judged(2, 80, 2e-5)];
    const { overRun, steady, differs } = compareRecords([a, b]).differences[0]!;
    expect(overRun.rate).toBe(a.headline!.overRun.rate - b.headline!.overRun.rate);
    expect(overRun.rate).toBeCloseTo(-2e-5, 6);
    expect(differs).toBe(true);
    // Exact for symmetrical intervals (Zou & Donner 2008); these are nearly so.
    for (const [found, one, other] of [
      [overRun, a.headline!.overRun, b.headline!.overRun],
      [steady, a.headline!.steady, b.headline!.steady],
    ] as const) {
      expect(half(found) / Math.hypot(half(one), half(other))).toBeCloseTo(1, 2);
    }
  });

  it("adds the bounds of two time bases, and cancels that of one", () => {
    const records = [judged(1, 60, 0, 3e-6), judged(2, 60, 2e-5, 3e-6)];
    const bound = (options: object) =>
      compareRecords(records, options).differences[0]!.systematicBound;
    expect(bound({})).toBeCloseTo(6e-6, 12);
    expect(bound({ sameTimebase: true })).toBe(0);
    expect(bound({ sameTimebase: true, timebaseMoves: 1e-7 })).toBeCloseTo(1e-7, 12);
  });

  it("holds for all pairs together: three clocks alike seldom differ anywhere", () => {
    let told = 0;
    let widest = 0;
    const sets = 12;
    for (let i = 0; i < sets; i++) {
      const three = [0, 1, 2].map((k) => judged(100 + 3 * i + k, 40, 1e-6));
      const { differences } = compareRecords(three);
      expect(differences.map(({ between }) => between)).toEqual([
        [0, 1],
        [0, 2],
        [1, 2],
      ]);
      const alone = compareRecords(three.slice(0, 2)).differences[0]!;
      widest = half(differences[0]!.overRun) / half(alone.overRun);
      // Normal quantiles of 1 − 0.05/6 and 0.975: 2.394 and 1.960 (tables of the normal distribution).
      expect(widest).toBeGreaterThan(1.15);
      expect(widest).toBeLessThan(1.6);
      if (
        differences.some(
          ({
            overRun: {
              interval95: [low, high],
            },
          }) => low > 0 || high < 0,
        )
      )
        told++;
    }
    // 95 % less three standard errors of twelve: at most 2.9 of them.
    expect(told).toBeLessThanOrEqual(2);
  });

  it("says how much more of a record would halve a difference, and where it would not help", () => {
    const [short, long] = [judged(5, 40, 0), judged(6, 400, 0)];
    const { differs, toHalve, steady } = compareRecords([short, long]).differences[0]!;
    expect(differs).toBe(false);
    expect(toHalve[1]).toBe(Number.POSITIVE_INFINITY);
    expect(toHalve[0]).toBeGreaterThan(0);
    const readings = 40 + Math.ceil(toHalve[0] / 10);
    const then = compareRecords([judged(5, readings, 0), long]).differences[0]!;
    // A forecast from forty readings: within a factor of two.
    expect(half(then.steady) / half(steady)).toBeGreaterThan(0.25);
    expect(half(then.steady) / half(steady)).toBeLessThan(1);
  });

  it("needs two records with a rate", () => {
    expect(() => compareRecords([judged(1, 60, 0)])).toThrow(RangeError);
    expect(() => compareRecords([judged(1, 60, 0), judged(1, 3, 0)])).toThrow(RangeError);
  });
});
