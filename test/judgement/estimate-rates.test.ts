import { describe, expect, it } from "vitest";
import { estimateRates } from "../../src/judgement/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";
import { backToBackRecord, deadTimeRecord } from "./coverage-harness.ts";
import { normalStream } from "./power-law-noise.ts";

const jitter = (k: number, seed: string) =>
  backToBackRecord(k, { measurement: 1 }, seed).readings as PeriodReadings;

describe("estimateRates", () => {
  it("gives T/P − 1 by all four for readings of one period, ± half a step of their last digit", () => {
    const estimates = estimateRates({
      ...jitter(30, "flat"),
      period: new Float64Array(30).fill(0.999),
      resolution: 1e-3,
    });
    for (const e of estimates) {
      expect(e.rate).toBeCloseTo(1 / 0.999 - 1, 14);
      expect(e.secondsPerDay).toBeCloseTo(e.rate * 86400, 12);
      const [low, high] = e.interval95;
      expect((high - low) / 2).toBeCloseTo(5e-4, 5);
    }
  });

  it("of 2000 back-to-back readings under white PM: 1/K from end to end, K^(−3/2) by the line", () => {
    const [mean, ends, line] = estimateRates(jitter(2000, "telescope"));
    // Levels of the harness: σ = 1e-7 of a reading's length; within 10 % (4σ of a level from 2000 readings: 6 %).
    expect(ends!.standardUncertainty / (1e-7 * (Math.SQRT2 / 2000))).toBeCloseTo(1, 0.9);
    // What slow noise there may be widens the line's.
    const ideal = 1e-7 * Math.sqrt(12 / 2001 ** 3);
    expect(line!.standardUncertainty / ideal).toBeGreaterThan(0.9);
    expect(line!.standardUncertainty / ideal).toBeLessThan(2);
    expect(mean!.standardUncertainty).toBeCloseTo(ends!.standardUncertainty, 15);
    // s/√K is √K too large (contiguous readings: 10.07 for K = 100 by Monte Carlo).
    expect(
      mean!.naiveStandardUncertainty / mean!.standardUncertainty / Math.sqrt(2000),
    ).toBeCloseTo(1, 0.9);
  });

  it("of readings with dead time: 1/√K, as the naive figure has it", () => {
    const [mean, ends] = estimateRates(deadTimeRecord(400, { reading: 1 }, "apart").readings);
    expect(mean!.standardUncertainty / mean!.naiveStandardUncertainty).toBeCloseTo(1, 1);
    expect(ends!.applies).toBe(false);
    expect(ends!.rate).toBeNaN();
    expect(ends!.why).toMatch(/does not tell how many cycles passed/);
  });

  it("joins dead time where starts make the count certain, and is surer for it", () => {
    const { readings } = deadTimeRecord(200, { reading: 1 }, "joined");
    const period = (readings as PeriodReadings).period;
    // Starts on the very grid of the edges: 10 cycles seen, 3 not.
    const normal = normalStream("starts");
    const start = period.map((_, i) => 13 * i * (1 - 2e-6) + 1e-7 * normal());
    const [mean, ends] = estimateRates({ ...(readings as PeriodReadings), start });
    expect(ends!.applies).toBe(true);
    expect(ends!.rate).toBeCloseTo(2e-6, 8);
    expect(ends!.standardUncertainty).toBeLessThan(mean!.standardUncertainty / 3);
  });

  it("carries the systematic bound beside the intervals", () => {
    const bound = estimateRates(jitter(50, "bound"), { systematicBound: 1e-8 });
    expect(bound.map((e) => e.systematicBound)).toEqual(bound.map(() => 1e-8));
    expect(bound[0]!.interval95).toEqual(estimateRates(jitter(50, "bound"))[0]!.interval95);
  });

  it("takes time errors at even instants, gaps and all", () => {
    const normal = normalStream("time errors");
    const timeError = Float64Array.from({ length: 100 }, (_, i) =>
      i === 40 ? Number.NaN : 3e-5 * 10 * i + 1e-6 * normal(),
    );
    const [mean, ends, line] = estimateRates({ kind: "time_error", timeError, spacing: 10 });
    expect(mean!.rate).toBe(ends!.rate);
    for (const e of [ends!, line!]) {
      expect(e.applies).toBe(true);
      expect(Math.abs(e.rate - 3e-5)).toBeLessThan(4 * e.standardUncertainty);
    }
    // Π and Ω: √2·σ/T and √12·σ/(√N·T), ratio √(N/6); within 15 %.
    const ratio = ends!.standardUncertainty / line!.standardUncertainty;
    expect(Math.abs(ratio / Math.sqrt(100 / 6) - 1)).toBeLessThan(0.15);
  });
});
