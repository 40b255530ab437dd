import { describe, expect, it } from "vitest";
import { estimateRates } from "../../src/judgement/index.ts";
import type { PeriodReadings, TimeErrorReadings } from "../../src/readings/index.ts";

const gap = Number.NaN;
const endless = Number.POSITIVE_INFINITY;

const periods: PeriodReadings = {
  kind: "period",
  period: Float64Array.of(2.0001, 1.9999, gap, 2.0002, 1.9998, 2.0003),
  cycles: Float64Array.of(1, 1, gap, 1, 1, 1),
  start: null,
  nominalPeriod: 2,
  backToBack: false,
};
const errors: TimeErrorReadings = {
  kind: "time_error",
  timeError: Float64Array.of(0, 1e-3, gap, 2e-3, 1e-3, 3e-3),
  spacing: 10,
};
const six = (...values: number[]) =>
  Float64Array.of(1, 1, 1, 1, 1, 1).map((v, i) => values[i] ?? v);

// What `Readings` says of each field, sentence by sentence.
describe("a record handed to estimateRates", () => {
  it("may have gaps", () => {
    // Three plain estimates and the best fit.
    for (const record of [periods, errors]) expect(estimateRates(record)).toHaveLength(4);
  });

  it.each([
    ["cycles must hold a value a reading: 6, got 2", { cycles: Float64Array.of(1, 1) }],
    ["start must hold a value a reading: 6, got 1", { start: Float64Array.of(0) }],
    ["period[1] must be > 0 s or NaN, got -2", { period: six(2, -2) }],
    ["period[0] must be > 0 s or NaN, got 0", { period: six(0) }],
    ["period[2] must be > 0 s or NaN, got Infinity", { period: six(2, 2, endless) }],
    ["cycles[0] must be > 0, got 0", { cycles: six(0) }],
    ["cycles[1] must be > 0, got NaN", { cycles: six(1, gap) }],
    ["start[1] must be finite or NaN, got -Infinity", { start: six(0, -endless) }],
    ["nominalPeriod must be > 0 s, got 0", { nominalPeriod: 0 }],
    ["nominalPeriod must be > 0 s, got NaN", { nominalPeriod: gap }],
    ["deadTime must be >= 0 s, got -1", { deadTime: -1 }],
    ["readings must not all be missing", { period: six().fill(gap) }],
    ["readings must not all be missing", { period: six().subarray(6), cycles: six().subarray(6) }],
  ])("is refused where it is none: %s", (message, change) => {
    const record = { ...periods, ...change };
    expect(() => estimateRates(record)).toThrow(new RangeError(`estimateRates: ${message}`));
  });

  it.each([
    ["spacing must be > 0 s, got -1", { spacing: -1 }],
    ["nominalPeriod must be > 0 s, got 0", { nominalPeriod: 0 }],
    ["timeError[1] must be finite or NaN, got Infinity", { timeError: six(0, endless) }],
    ["readings must not all be missing", { timeError: six().fill(gap) }],
  ])("is refused where its time errors are none: %s", (message, change) => {
    const record = { ...errors, ...change };
    expect(() => estimateRates(record)).toThrow(new RangeError(`estimateRates: ${message}`));
  });

  it("goes with a bound that is none below zero", () => {
    for (const systematicBound of [-1e-9, gap]) {
      expect(() => estimateRates(periods, { systematicBound })).toThrow(
        /systematicBound must be >= 0/,
      );
    }
  });
});
