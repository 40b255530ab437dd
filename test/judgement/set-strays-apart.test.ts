import { describe, expect, it } from "vitest";
import { estimateRates, setStraysApart } from "../../src/judgement/index.ts";
import { median, robustDeviation } from "../../src/numeric/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";
import { backToBackRecord } from "./coverage-harness.ts";
import { normalStream } from "./power-law-noise.ts";

describe("median and robustDeviation", () => {
  it("are those of the definition, missing values left out", () => {
    expect(median(Float64Array.of(4, Number.NaN, 1, 2))).toBe(2);
    expect(median(Float64Array.of(4, 1, 2, 3))).toBe(2.5);
    expect(median(new Float64Array(0))).toBeNaN();
    expect(robustDeviation(Float64Array.of(1, 2, 3, 4, 100), 3)).toBeCloseTo(1 / 0.6745, 12);
  });

  it("give σ for normal values, within 4 % (4 standard deviations of the estimate, 10⁴ values)", () => {
    const normal = normalStream("mad");
    const values = Float64Array.from({ length: 1e4 }, () => 3 * normal());
    expect(Math.abs(robustDeviation(values, 0) / 3 - 1)).toBeLessThan(0.047);
  });
});

describe("setStraysApart", () => {
  const readings = backToBackRecord(300, { measurement: 1 }, "stray").readings as PeriodReadings;

  it("sets a reading apart that noise does not explain, and keeps its place as a gap", () => {
    const period = readings.period.slice();
    period[120]! += 4e-6;
    const { strays, without } = setStraysApart({ ...readings, period });
    expect(strays.map((s) => [s.reading, s.kind, s.repaired])).toEqual([[120, "stray", false]]);
    // Ten cycles of 4 µs each are 40 millionths of a cycle.
    expect(strays[0]!.cycles).toBeCloseTo(4e-5, 5);
    const kept = (without as PeriodReadings).period;
    expect(kept[120]).toBeNaN();
    expect(kept.filter((p) => !Number.isNaN(p)).length).toBe(299);
  });

  it("says how far in cycles of the usual length, and leaves a handful of readings alone", () => {
    const normal = normalStream("handful");
    const period = Float64Array.from({ length: 40 }, () => 2 + 1e-4 * normal());
    // An edge 0.8 s early after 1.2 s: 0.4 of a cycle of 2 s.
    period[20] = 1.2;
    const single = { ...readings, nominalPeriod: 2 };
    const judged = { ...single, period, cycles: period.map(() => 1) };
    expect(setStraysApart(judged).strays[0]!.cycles).toBeCloseTo(-0.4, 3);
    // What a counter shows that overflows is so large that its distance from the usual period is itself to a double.
    period[20] = 9.9e37;
    expect(setStraysApart(judged).strays[0]!.cycles / 4.95e37).toBeCloseTo(1, 3);
    const few = Float64Array.of(2.00001, 2.00002, 2.3, 2.00001);
    expect(setStraysApart({ ...single, period: few, cycles: few.map(() => 1) }).strays).toEqual([]);
  });

  it("takes no wandering rate and no steep time error for strays", () => {
    const walk = backToBackRecord(300, { measurement: 1, randomWalkFm: 10 }, "walk").readings;
    expect(setStraysApart(walk).strays.length).toBeLessThanOrEqual(1);
    const normal = normalStream("steep");
    const timeError = Float64Array.from({ length: 200 }, (_, i) => 0.5 * i + 1e-3 * normal());
    expect(setStraysApart({ kind: "time_error", timeError, spacing: 1 }).strays).toEqual([]);
  });

  it("tells a stray time error from a step, over which there is no common scale", () => {
    const normal = normalStream("step");
    const timeError = Float64Array.from(
      { length: 200 },
      (_, i) => 3e-5 * 10 * i + 1e-6 * normal() + (i === 60 ? 1e-4 : 0) + (i >= 120 ? 0.25 : 0),
    );
    const record = { kind: "time_error", timeError, spacing: 10, nominalPeriod: 1 } as const;
    const { strays, without } = setStraysApart(record);
    expect(strays.map((s) => s.reading)).toEqual([60, 120]);
    expect(strays[1]!.cycles).toBeCloseTo(-0.25, 4);
    // 199 readings of the rate, less the step and the two that the stray one belongs to.
    expect(without.kind).toBe("period");
    const [mean, ends] = estimateRates(without);
    expect(Math.abs(mean!.rate - 3e-5)).toBeLessThan(4 * mean!.standardUncertainty);
    expect([mean!.applies, ends!.applies]).toEqual([true, false]);
  });

  it("does nothing where most readings agree to the last digit", () => {
    const period = new Float64Array(50).fill(1);
    period[7] = 1.1;
    const { strays, without } = setStraysApart({ ...readings, period });
    expect(strays).toEqual([]);
    expect((without as PeriodReadings).period).toBe(period);
  });

  it("leaves in what is no fault but the tail of a delay that hops between two values", () => {
    const normal = normalStream("hop");
    // One reading in twenty is a hop away, far beyond five deviations of the rest.
    const hopping = Float64Array.from(
      { length: 500 },
      (_, i) => 1 + 1e-6 * normal() + (i % 20 === 7 ? 1e-4 : 0),
    );
    expect(
      setStraysApart({ ...readings, period: hopping, cycles: hopping.map(() => 10) }).strays,
    ).toEqual([]);
    const faulty = hopping.map((p, i) => (i === 147 || i === 307 ? p : 1 + 1e-6 * normal()));
    const { strays } = setStraysApart({
      ...readings,
      period: faulty,
      cycles: faulty.map(() => 10),
    });
    expect(strays.map((s) => s.reading)).toEqual([147, 307]);
  });

  it("sets faults apart however many, where no delay hops as far", () => {
    const normal = normalStream("hesitation");
    // A clock that hesitates for 0.7 s now and then before it runs on by itself: 7 % of a reading of ten cycles.
    const at = [3, 11, 22, 30, 37];
    const period = Float64Array.from(
      { length: 40 },
      (_, i) => 1 + 1e-5 * normal() + (at.includes(i) ? 0.07 : 0),
    );
    const { strays } = setStraysApart({ ...readings, period, cycles: period.map(() => 10) });
    expect(strays.map((s) => s.reading)).toEqual(at);
  });

  it("cuts nothing from readings whose counts are as coarse as their noise", () => {
    const normal = normalStream("coarse");
    // σ of a reading 1.3 counts: the median deviation is one count, and five of them only 5.8 counts.
    const period = Float64Array.from(
      { length: 20_000 },
      () => 1 + 1e-9 * Math.round(1.3 * normal()),
    );
    expect(setStraysApart({ ...readings, period, cycles: period.map(() => 10) }).strays).toEqual(
      [],
    );
  });

  it("finds strays of all sizes at once, up to one reading in twenty", () => {
    const normal = normalStream("many");
    const at = Array.from({ length: 50 }, (_, k) => 20 * k + 7);
    const period = Float64Array.from({ length: 1000 }, () => 1 + 1e-6 * normal());
    at.forEach((i, k) => {
      period[i]! += (k % 2 ? -1 : 1) * 1e-6 * (12 + 4 * k);
    });
    const { strays } = setStraysApart({ ...readings, period, cycles: period.map(() => 10) });
    expect(strays.map((s) => s.reading)).toEqual(at);
  });
});
