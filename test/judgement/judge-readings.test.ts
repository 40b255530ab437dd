import { describe, expect, it } from "vitest";
import { judgeReadings } from "../../src/judgement/index.ts";
import type { PeriodReadings } from "../../src/readings/index.ts";
import { backToBackRecord, deadTimeRecord } from "./coverage-harness.ts";
import { normalStream } from "./power-law-noise.ts";

const whole = backToBackRecord(300, { measurement: 1 }, "judge").readings as PeriodReadings;

describe("judgeReadings", () => {
  it("says what a clean record is: nothing to repair, white PM, a table over octaves", () => {
    const j = judgeReadings(whole);
    expect([j.readings, j.missing, j.gate, j.backToBack]).toEqual([300, 0, 10, true]);
    expect([j.outliers, j.lost, j.estimatesWithStrays, j.warnings]).toEqual([[], 0, null, []]);
    // σ = 1e-7 of 10 s; 16 % is 4 standard deviations of a level from 300 readings.
    expect(Math.abs(j.noiseFound.edgeJitter / 1e-6 - 1)).toBeLessThan(0.16);
    expect(j.noise[0]).toEqual({ tau: 10, type: "white_pm" });
    expect(j.stability.map((r) => r.tauS / 10)).toEqual([1, 2, 4, 8, 16, 32, 64, 128]);
    // White PM: the deviation of a single reading is √2·σ.
    expect(Math.abs(j.singleReading.standardDeviation / (Math.SQRT2 * 1e-7) - 1)).toBeLessThan(
      0.16,
    );
    expect([j.longer, j.ahead]).toEqual([null, null]);
  });

  it("repairs slips, tells the seconds lost apart from the rate, and that readings cannot tell whose they are", () => {
    const cycles = whole.cycles.slice();
    const period = whole.period.slice();
    cycles[100] = 9;
    period[100]! *= 10 / 9;
    const j = judgeReadings({ ...whole, cycles, period });
    expect(j.outliers).toEqual([{ reading: 100, kind: "missed_edge", cycles: 1, repaired: true }]);
    expect(j.lost).toBeCloseTo(1, 4);
    expect(j.slipNote).toMatch(/cannot tell/);
    expect(j.estimates[1]!.rate).toBeCloseTo(judgeReadings(whole).estimates[1]!.rate, 10);
  });

  it("takes what lies between an edge and its bounce for no reading, and the cycle around it for one", () => {
    const normal = normalStream("bounce");
    const clean = Float64Array.from({ length: 401 }, (_, i) => i * (1 + 4e-6) + 1e-3 * normal());
    const counted = [...clean, clean[100]! + 1e-4, clean[200]! + 2e-4].sort((a, b) => a - b);
    const of = (edges: ArrayLike<number>): PeriodReadings => {
      const period = Float64Array.from(
        { length: edges.length - 1 },
        (_, i) => edges[i + 1]! - edges[i]!,
      );
      const cycles = period.map(() => 1);
      return { kind: "period", period, cycles, start: null, nominalPeriod: 1, backToBack: true };
    };
    const bounced = judgeReadings(of(counted));
    expect(bounced.outliers.map((o) => [o.reading, o.kind])).toEqual([
      [100, "stray"],
      [201, "stray"],
    ]);
    judgeReadings(of(clean)).estimates.forEach((right, i) => {
      const found = bounced.estimates[i]!;
      expect(found.applies).toBe(true);
      expect(Math.abs(found.rate - right.rate)).toBeLessThan(right.standardUncertainty);
    });
  });

  it("takes the length of a reading and of the run from the readings that are right", () => {
    const at = (size: number) => {
      const period = whole.period.slice();
      period[40] = size;
      return judgeReadings({ ...whole, period });
    };
    expect(at(2 * whole.period[40]!).gate).toBe(10);
    // A counter that overflows shows nothing: the rest is judged as if there were no reading.
    const [overflow, missing] = [at(9.9e37), at(Number.NaN)];
    expect(overflow.gate).toBe(10);
    expect(overflow.stability).toEqual(missing.stability);
    const [mean] = overflow.estimates;
    expect(mean!.nextRunStandardDeviation).toBe(missing.estimates[0]!.nextRunStandardDeviation);
  });

  it("sets strays apart and shows the result with and without", () => {
    const period = whole.period.slice();
    period[50]! += 3e-6;
    period[51]! -= 3e-6;
    const j = judgeReadings({ ...whole, period });
    expect(j.outliers.map((o) => [o.reading, o.kind])).toEqual([
      [50, "stray"],
      [51, "stray"],
    ]);
    expect(j.strayEffect).toMatch(/breaks it/);
    const [mean, ends] = j.estimates;
    // An edge that fell late belongs to both neighbours; the count over them is certain, so the ends still join.
    expect(ends!.applies).toBe(true);
    expect(ends!.rate).toBeCloseTo(judgeReadings(whole).estimates[1]!.rate, 9);
    expect(mean!.why).toMatch(/2 stretches/);
  });

  it("refuses a table where the dead time is not known, and makes one where it is", () => {
    const { readings } = deadTimeRecord(100, { reading: 1 }, "apart");
    const { deadTime: _, ...untold } = readings as PeriodReadings;
    expect(judgeReadings(untold).stabilityWhy).toMatch(/dead time .* is not known/);
    const told = judgeReadings({ ...untold, deadTime: 5 });
    expect(told.stability.length).toBeGreaterThan(3);
  });

  it("answers how much longer and what the dial will do, when asked", () => {
    const j = judgeReadings(whole, { within: 1e-12, ahead: 86400, systematicBound: 1e-10 });
    expect(new Set(j.longer!.map((l) => l.limitedBy))).toEqual(new Set(["systematic_bound"]));
    expect(j.ahead![0]!.gain).toBeCloseTo(2e-6 * 86400, 3);
  });

  it("warns of digits that stand still", () => {
    const frozen = judgeReadings({ ...whole, period: new Float64Array(300).fill(1) });
    expect(frozen.warnings.map((w) => w.code)).toEqual(["frozen"]);
    expect(frozen.findings.map((f) => f.code)).toEqual(["rounding"]);
  });

  it("takes time errors, and a record of one reading", () => {
    const x = Float64Array.from({ length: 64 }, (_, i) => 1e-3 * i + 1e-6 * Math.sin(i * i));
    const j = judgeReadings({ kind: "time_error", timeError: x, spacing: 5 });
    expect([j.backToBack, j.gate]).toEqual([null, 5]);
    expect(j.estimates[2]!.rate).toBeCloseTo(2e-4, 7);
    const one = { ...whole, period: whole.period.slice(0, 1), cycles: whole.cycles.slice(0, 1) };
    expect(judgeReadings(one).stabilityWhy).toBe("one reading has no stability");
  });

  it("gives no estimate of a record with two rates", () => {
    const normal = normalStream("two rates");
    // Four in ten readings on another oscillator, 60 s a day slow and steadier.
    const period = Float64Array.from({ length: 500 }, (_, i) =>
      i > 150 && i <= 350 ? 1.0007 + 1e-8 * normal() : 1 + 1e-6 * normal(),
    );
    period[151]! += 0.05;
    period[350]! += 0.03;
    const j = judgeReadings(
      { ...whole, period, cycles: period.map(() => 10) },
      { within: 1e-9, ahead: 1e6 },
    );
    expect(j.estimates.map((e) => e.applies)).toEqual([false, false, false, false]);
    expect(j.headline).toBeNull();
    expect(j.estimates[0]!.why).toMatch(/[46]\d % of the readings run otherwise/);
    expect([j.longer, j.ahead]).toEqual([[], []]);
  });

  it.each([
    [
      { ...whole, cycles: whole.cycles.slice(1) },
      {},
      /^judgeReadings: cycles must hold a value a reading/,
    ],
    [
      { ...whole, period: whole.period.map(() => Number.NaN) },
      {},
      /^judgeReadings: .* all be missing/,
    ],
    [whole, { slipUnit: 0 }, /slipUnit must be > 0 and <= 1, got 0/],
    [whole, { systematicBound: -1 }, /systematicBound must be >= 0, got -1/],
    [whole, { within: 0 }, /within must be > 0, got 0/],
    [whole, { ahead: -5 }, /ahead must be > 0 s, got -5/],
  ] as const)(
    "refuses what is no record, and options out of their range (%#)",
    (record, options, says) => {
      const judge = () => judgeReadings(record, options);
      expect(judge).toThrow(RangeError);
      expect(judge).toThrow(says);
    },
  );
});
