import { describe, expect, it } from "vitest";
import { estimateRates } from "../../src/judgement/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";
import { backToBackRecord, deadTimeRecord } from "./coverage-harness.ts";
import { normalStream } from "./power-law-noise.ts";

const jitter = (k: number, seed: string) =>
  backToBackRecord(k, { measurement: 1 }, seed).readings as PeriodReadings;

describe("estimateRates", () => {
  it("gives T/P − 1 by all three for readings of one period, and claims no uncertainty", () => {
    const estimates = estimateRates({
      ...jitter(30, "flat"),
      period: new Float64Array(30).fill(0.999),
    });
    for (const e of estimates) {
      expect(e.rate).toBeCloseTo(1 / 0.999 - 1, 14);
      expect(e.secondsPerDay).toBeCloseTo(e.rate * 86400, 12);
      expect(e.applies).toBe(false);
      expect(e.why).toMatch(/do not scatter/);
    }
  });

  it("of 2000 back-to-back readings under white PM: 1/K from end to end, K^(−3/2) by the line", () => {
    const [mean, ends, line] = estimateRates(jitter(2000, "telescope"));
    // Levels of the harness: σ = 1e-7 of a reading's length; within 10 % (4σ of a level from 2000 readings: 6 %).
    expect(ends!.standardUncertainty / (1e-7 * (Math.SQRT2 / 2000))).toBeCloseTo(1, 0.9);
    expect(line!.standardUncertainty / (1e-7 * Math.sqrt(12 / 2001 ** 3))).toBeCloseTo(1, 0.9);
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

  it("finds no scatter in readings that are the same to the last digit", () => {
    const period = new Float64Array(50).fill(2.00004);
    const cycles = period.map(() => 1);
    const same = { kind: "period", period, cycles, start: null, nominalPeriod: 2 } as const;
    const estimates = estimateRates({ ...same, backToBack: true });
    expect(estimates.map((e) => e.naiveStandardUncertainty)).toEqual([0, 0, 0]);
  });

  it("says that a line does not answer where the rate drifts or cycles slowly", () => {
    const drifting = backToBackRecord(400, { measurement: 1, drift: 1e-3 }, "curve").readings;
    const line = estimateRates(drifting)[2]!;
    expect([line.applies, line.why]).toEqual([false, expect.stringMatching(/drifts/)]);
    const cycling = backToBackRecord(
      400,
      { measurement: 1, beat: [3, 2.4 / 400] },
      "cycle",
    ).readings;
    expect(estimateRates(cycling)[2]!.why).toMatch(/cycle/);
    expect(estimateRates(cycling)[1]!.applies).toBe(true);
  });

  it("gives no steady interval under random-walk FM, where no mean converges, nor from few readings", () => {
    const walk = backToBackRecord(400, { measurement: 1, randomWalkFm: 1 }, "walk").readings;
    const wandering = estimateRates(walk)[1]!;
    expect(wandering.applies).toBe(true);
    expect(wandering.steadyInterval95).toBeNull();
    expect(wandering.steadyWhy).toMatch(/no mean converges/);
    // √2 × Allan deviation: AVAR = r·K/3 intervals, 1e-7 each; within a factor of 1.5.
    const expected = 1e-7 * Math.sqrt((2 * 400) / 3);
    expect(Math.abs(Math.log(wandering.nextRunStandardDeviation / expected))).toBeLessThan(
      Math.log(1.5),
    );
    expect(estimateRates(jitter(20, "few"))[1]!.steadyInterval95).toBeNull();
  });

  it("claims no uncertainty where the digits are coarser than the noise", () => {
    const readings = jitter(100, "coarse");
    const period = readings.period.map((p) => Math.round(p / 4e-7) * 4e-7);
    const [mean] = estimateRates({ ...readings, period });
    expect([mean!.applies, mean!.why]).toEqual([false, expect.stringMatching(/coarser than/)]);
  });

  it("needs five readings to say how sure it is", () => {
    const few = estimateRates(jitter(4, "four"))[0]!;
    expect([few.applies, few.why]).toEqual([false, expect.stringMatching(/too few/)]);
    expect(few.rate).toBeCloseTo(2e-6, 6);
    expect(estimateRates(jitter(5, "five"))[0]!.applies).toBe(true);
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

  it("refuses readings that are too unlike each other", () => {
    const readings = jitter(40, "uneven");
    const cycles = readings.cycles.map((c, i) => (i % 2 === 0 ? c : 10 * c));
    expect(estimateRates({ ...readings, cycles })[0]!.why).toMatch(/from 10 to 100 cycles/);
  });
});
