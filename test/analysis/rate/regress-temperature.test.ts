import { describe, expect, it } from "vitest";
import { estimateRates, regressTemperature } from "../../../src/judgement/index.ts";
import type { PeriodReadings, Readings } from "../../../src/readings/index.ts";
import { backToBackRecord, deadTimeRecord } from "./coverage-harness.ts";
import { normalStream } from "./power-law-noise.ts";

const daily = Float64Array.from({ length: 200 }, (_, i) => 20 + 3 * Math.sin(i / 15));

/** A record whose rate follows the temperature by k, about 20 °C. */
function warmed(k: number, seed: string, backToBack = true): PeriodReadings {
  const readings = backToBackRecord(200, { measurement: 1 }, seed).readings as PeriodReadings;
  const period = readings.period.map((p, i) => p - k * (daily[i]! - 20));
  return { ...readings, period, backToBack };
}

describe("regressTemperature", () => {
  it.each([true, false])(
    "finds the coefficient within its interval (back to back: %s)",
    (touching) => {
      let held = 0;
      for (let s = 0; s < 40; s++) {
        const { interval95 } = regressTemperature(warmed(4e-8, `warm ${s}`, touching), daily);
        held += interval95[0] <= 4e-8 && 4e-8 <= interval95[1] ? 1 : 0;
      }
      // 38 expected of 40 at 95 %; fewer than 33 by chance: 1.5e-3.
      expect(held).toBeGreaterThanOrEqual(33);
    },
  );

  it("takes the effect out of the readings", () => {
    const { readings, meanTemperature } = regressTemperature(warmed(1e-6, "out"), daily);
    const [before] = estimateRates(warmed(1e-6, "out"));
    const [after] = estimateRates(readings);
    expect(after!.naiveStandardUncertainty).toBeLessThan(0.2 * before!.naiveStandardUncertainty);
    expect(meanTemperature).toBeCloseTo(daily.reduce((s, t) => s + t, 0) / 200, 10);
  });

  it("works on time errors", () => {
    const timeError = new Float64Array(200);
    for (let i = 1; i < 200; i++) {
      const warmth = (daily[i - 1]! + daily[i]!) / 2 - 20;
      timeError[i] = timeError[i - 1]! + 10 * 5e-7 * warmth;
    }
    const noisy = timeError.map((x, i) => x + 1e-8 * Math.sin(i * i));
    const fit = regressTemperature({ kind: "time_error", timeError: noisy, spacing: 10 }, daily);
    expect(fit.coefficient).toBeCloseTo(5e-7, 9);
  });

  const kinds: readonly [string, (seed: string) => Readings][] = [
    ["white PM", (seed) => backToBackRecord(200, { measurement: 1 }, seed).readings],
    [
      "flicker FM",
      (seed) => backToBackRecord(200, { measurement: 1, flickerFm: 0.05 }, seed).readings,
    ],
    ["dead time", (seed) => deadTimeRecord(200, { reading: 1 }, seed).readings],
  ];

  it.each(kinds)("holds the truth with a fifth of the readings missing: %s", (name, record) => {
    const runs = 60;
    let held = 0;
    let square = 0;
    let claimed = 0;
    for (let s = 0; s < runs; s++) {
      const normal = normalStream(`gone ${name} ${s}`);
      const whole = record(`gaps ${name} ${s}`) as PeriodReadings;
      const period = whole.period.map((p, i) => p - 4e-8 * (daily[i]! - 20));
      const temperature = daily.slice();
      for (let i = 0; i < 200; i++) {
        // A fifth of the readings, every 41st temperature and a stretch of the thermometer.
        if (Math.abs(normal()) < 0.253) period[i] = Number.NaN;
        if (i % 41 === 7 || (i > 120 && i < 132)) temperature[i] = Number.NaN;
      }
      const fit = regressTemperature({ ...whole, period }, temperature);
      held += fit.interval95[0] <= 4e-8 && 4e-8 <= fit.interval95[1] ? 1 : 0;
      square += (fit.coefficient - 4e-8) ** 2 / runs;
      claimed += fit.standardUncertainty ** 2 / runs;
    }
    // 57 expected of 60 at 95 %; fewer than 51 by chance: 2e-3.
    expect(held).toBeGreaterThanOrEqual(51);
    // Neither boastful nor useless: a ratio of variances from 60 runs scatters by 0.18.
    expect(square / claimed).toBeGreaterThan(0.4);
    expect(square / claimed).toBeLessThan(1.7);
  });

  it("corrects with an interpolated temperature over short gaps and leaves readings in long ones out", () => {
    const readings = warmed(1e-6, "short");
    const temperature = daily.slice();
    for (let i = 0; i < 200; i++) {
      if (i === 0 || i === 50 || i === 51 || (i >= 100 && i < 110)) temperature[i] = Number.NaN;
    }
    const fit = regressTemperature(readings, temperature);
    const period = (fit.readings as PeriodReadings).period;
    expect([...period].flatMap((p, i) => (Number.isNaN(p) ? [i] : []))).toEqual(
      Array.from({ length: 10 }, (_, k) => 100 + k),
    );
    expect(fit.note).toBe(
      "of readings without a temperature, 3 were corrected by an interpolated one and 10 were left out",
    );
    // What is left of an effect of 3e-6 at most: noise of 1e-7 and the curve of the wave within two readings.
    const rest = period.map((p) => p - period[0]!).filter((v) => !Number.isNaN(v));
    expect(Math.max(...rest.map(Math.abs))).toBeLessThan(1e-6);
  });

  it("gives the coefficient exactly where readings follow the temperature, whatever is missing", () => {
    const warmth = daily.map((t) => t - 20);
    const gap = (v: number, i: number) => (i % 7 === 3 ? Number.NaN : v);
    const period = {
      ...warmed(0, "exact"),
      period: warmth.map((w, i) => gap(1 - 3e-7 * w, i)),
    };
    expect(regressTemperature(period, daily).coefficient).toBeCloseTo(3e-7, 13);
    const x = new Float64Array(200);
    for (let i = 1; i < 200; i++)
      x[i] = x[i - 1]! + 5e-7 * 10 * ((warmth[i - 1]! + warmth[i]!) / 2);
    const errors = { kind: "time_error", timeError: x.map(gap), spacing: 10 } as const;
    expect(regressTemperature(errors, daily).coefficient).toBeCloseTo(5e-7, 13);
  });

  it("throws RangeError for a constant temperature and too few readings", () => {
    const readings = warmed(0, "throws");
    const few = daily.map((t, i) => (i < 9 ? t : Number.NaN));
    expect(() => regressTemperature(readings, few)).toThrow(/at least 10 .* got 9/);
    expect(() => regressTemperature(readings, daily.slice(0, 5))).toThrow(/for each reading/);
    expect(() => regressTemperature(readings, new Float64Array(200).fill(20))).toThrow(
      /must change/,
    );
    expect(() => regressTemperature(readings, new Float64Array(200).fill(Number.NaN))).toThrow(
      /got 0/,
    );
    // Time errors none of which follow one another know no rate.
    const timeError = new Float64Array(200).map((_, i) => (i % 2 ? Number.NaN : 1e-6 * i));
    expect(() => regressTemperature({ kind: "time_error", timeError, spacing: 1 }, daily)).toThrow(
      /follow one another/,
    );
  });
});
