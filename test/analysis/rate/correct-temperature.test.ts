import { describe, expect, it } from "vitest";
import { correctTemperature } from "../../../src/judgement/index.ts";
import type { PeriodReadings, TimeErrorReadings } from "../../../src/readings/index.ts";

const coefficient = 1e-6;
/** A wave of three kelvin about the temperature wanted, and missing ones where asked. */
const warmth = (missing: readonly number[] = []) =>
  Float64Array.from({ length: 40 }, (_, i) =>
    missing.includes(i) ? Number.NaN : 3 * Math.sin(i / 5),
  );

/** Single periods of 2 s by their name, back to back. */
const periods = (period: Float64Array): PeriodReadings => ({
  kind: "period",
  period,
  cycles: period.map(() => 1),
  start: null,
  nominalPeriod: 2,
  backToBack: true,
});

// Exact case: readings that follow the temperature and nothing else come out equal.
describe("correctTemperature", () => {
  it("makes periods equal that follow the temperature, to the square of the rate", () => {
    const period = warmth().map((t) => 2 / (1 + coefficient * t));
    const right = correctTemperature(periods(period), warmth(), coefficient);
    const { period: found } = right.readings as PeriodReadings;
    for (const p of found) expect(Math.abs(p - 2)).toBeLessThan(2 * (3 * coefficient) ** 2 * 1.01);
    expect(right.note).toBe("");
  });

  it("takes from time errors what the temperature has gained, step by step of the trapezium", () => {
    const t = warmth();
    const x = new Float64Array(40).fill(5e-6);
    for (let i = 1; i < 40; i++) x[i] = x[i - 1]! + (coefficient * 10 * (t[i - 1]! + t[i]!)) / 2;
    const readings: TimeErrorReadings = { kind: "time_error", timeError: x, spacing: 10 };
    const right = correctTemperature(readings, t, coefficient).readings as TimeErrorReadings;
    for (const error of right.timeError) expect(error).toBeCloseTo(5e-6, 15);
  });

  it("takes a few missing temperatures from the line between, and leaves a longer gap out", () => {
    const period = new Float64Array(40).fill(2);
    const t = warmth([7, 20, 21, 22, 23, 24, 25]);
    const { readings: right, note } = correctTemperature(periods(period), t, coefficient);
    const { period: found } = right as PeriodReadings;
    expect(found[7]).toBeCloseTo(2 + (2 * coefficient * (t[6]! + t[8]!)) / 2, 15);
    expect([...found.keys()].filter((i) => Number.isNaN(found[i]!))).toEqual([
      20, 21, 22, 23, 24, 25,
    ]);
    expect(note).toBe(
      "of readings without a temperature, 1 was corrected by an interpolated one and 6 were left out",
    );
  });
});
