import { describe, expect, it } from "vitest";
import { estimateRates, repairSlips } from "../../src/judgement/index.ts";
import type { PeriodReadings, Readings } from "../../src/readings/index.ts";
import { backToBackRecord } from "./coverage-harness.ts";

const record = (seed: string) =>
  backToBackRecord(200, { measurement: 1e6 }, seed).readings as PeriodReadings;

/** The clock or the counter misses k edges in a reading: the time is the same, the count is less. */
function miss(readings: PeriodReadings, at: number, k: number): PeriodReadings {
  const period = readings.period.slice();
  const cycles = readings.cycles.slice();
  cycles[at]! -= k;
  period[at]! *= readings.cycles[at]! / cycles[at]!;
  return { ...readings, period, cycles };
}

describe("repairSlips", () => {
  it("leaves a record without slips as it is", () => {
    const readings = record("whole");
    expect(repairSlips(readings)).toEqual({ readings, slips: [], lost: 0 });
    expect(repairSlips(readings).readings).toBe(readings);
  });

  it.each([
    ["one missed edge", [[50, 1]]],
    ["an edge counted twice", [[50, -1]]],
    ["several in one gate", [[50, 3]]],
    [
      "two neighbouring gates",
      [
        [50, 1],
        [51, 2],
      ],
    ],
    [
      "both kinds in neighbours",
      [
        [50, 1],
        [51, -1],
      ],
    ],
    [
      "the first and the last reading",
      [
        [0, 1],
        [199, -2],
      ],
    ],
  ] as [string, [number, number][]][])("repairs %s", (_, slips) => {
    const readings = record("slipped");
    const slipped = slips.reduce((r, [at, k]) => miss(r, at, k), readings);
    const found = repairSlips(slipped);
    expect(found.slips.map((s) => [s.reading, s.cycles])).toEqual(slips);
    expect(found.slips.every((s) => s.repaired)).toBe(true);
    expect(found.slips.map((s) => s.kind)).toEqual(
      slips.map(([, k]) => (k > 0 ? "missed_edge" : "extra_edge")),
    );
    const right = found.readings as PeriodReadings;
    right.period.forEach((p, i) => {
      expect(p).toBeCloseTo(readings.period[i]!, 12);
    });
    expect(found.lost).toBeCloseTo(
      slips.reduce((sum, [, k]) => sum + k, 0),
      3,
    );
  });

  it("takes a nominal period off the dial for every tick missed, at whatever rate the clock goes", () => {
    const period = Float64Array.from({ length: 60 }, (_, i) => 2.02 + 1e-5 * ((i * i) % 7));
    const missed = period.map((p, i) => (i === 30 ? 2 * p : p));
    const cycles = period.map(() => 1);
    const readings = { ...record("slow"), period: missed, cycles, nominalPeriod: 2 };
    expect(repairSlips(readings).lost).toBe(2);
  });

  it("finds single steps of a tick where told so", () => {
    const slipped = miss(record("steps"), 70, 0.2);
    expect(repairSlips(slipped).slips).toEqual([]);
    expect(repairSlips(slipped, 0.2).slips.map((s) => s.cycles)).toEqual([0.2]);
  });

  it("takes no slip for certain where readings scatter by a cycle", () => {
    const period = Float64Array.from({ length: 50 }, (_, i) => 1 + 0.03 * Math.sin(i * i));
    const readings: Readings = { ...record("wild"), period, cycles: new Float64Array(50).fill(30) };
    expect(repairSlips(readings).slips).toEqual([]);
  });

  it("takes for certain no more cycles than the usual period tells the number of", () => {
    const readings = record("many");
    const { period } = readings;
    const cycles = period.map(() => 10);
    const long = (size: number): PeriodReadings => {
      const odd = period.slice();
      odd[50] = size;
      return { ...readings, cycles, period: odd };
    };
    // What a counter shows that overflows (IEEE 488.2 has 9.9e37 for infinity): a whole number, as any double from 2^53 on.
    expect(repairSlips(long(9.9e37)).slips).toEqual([]);
    // Ten cycles scatter by √2·1e-3; the median of 200 such, by √(π/2)/√200 of it: six times that over 1000 cycles
    // are 0.08 of a cycle, over 1e6 many.
    const usual = period.slice().sort()[100]!;
    expect(repairSlips(long(100 * usual)).slips.map((s) => s.cycles)).toEqual([990]);
    expect(repairSlips(long(1e5 * usual)).slips).toEqual([]);
    const timeError = Float64Array.from({ length: 40 }, (_, i) =>
      i === 20 ? 9.9e37 : 1e-3 * Math.sin(i),
    );
    expect(
      repairSlips({ kind: "time_error", timeError, spacing: 10, nominalPeriod: 1 }).slips,
    ).toEqual([]);
  });

  it("finds a step of whole periods in time errors", () => {
    const timeError = Float64Array.from(
      { length: 40 },
      (_, i) => 1e-3 * Math.sin(i) - (i >= 25 ? 1 : 0),
    );
    const { slips, readings, lost } = repairSlips({
      kind: "time_error",
      timeError,
      spacing: 10,
      nominalPeriod: 1,
    });
    expect(slips.map((s) => [s.reading, s.cycles, s.kind])).toEqual([[25, 1, "missed_edge"]]);
    expect(lost).toBe(1);
    (readings as { timeError: Float64Array }).timeError.forEach((x, i) => {
      expect(x).toBeCloseTo(1e-3 * Math.sin(i), 12);
    });
  });

  it("brings the rate of a run with two slips back to within its uncertainty; dropping them is worse", () => {
    const whole = record("two slips");
    const slipped = miss(miss(whole, 60, 1), 130, -1);
    const truth = estimateRates(whole)[0]!;
    const repaired = estimateRates(repairSlips(slipped).readings)[0]!;
    expect(Math.abs(repaired.rate - truth.rate)).toBeLessThan(1e-3 * truth.standardUncertainty);
    const drop = (values: Float64Array) =>
      values.map((v, i) => (i === 60 || i === 130 ? Number.NaN : v));
    const dropped = estimateRates({ ...slipped, period: drop(slipped.period) })[0]!;
    // Three stretches have six end edges instead of two.
    expect(dropped.standardUncertainty).toBeGreaterThan(1.5 * repaired.standardUncertainty);
    expect(Math.abs(dropped.rate - truth.rate)).toBeGreaterThan(
      Math.abs(repaired.rate - truth.rate),
    );
  });

  it("throws RangeError for a unit outside 0 to 1", () => {
    expect(() => repairSlips(record("unit"), 0)).toThrow(/unit must lie/);
  });
});
