import { describe, expect, it } from "vitest";
import { estimateRates } from "../../../src/analysis/rate/estimate-rates.ts";
import { regressTemperature } from "../../../src/analysis/rate/regress-temperature.ts";
import type { PeriodReadings } from "../../../src/analysis/readings/readings.ts";
import { backToBackRecord } from "./coverage-harness.ts";

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

  it("throws RangeError for gaps, a constant temperature, and too few readings", () => {
    const readings = warmed(0, "throws");
    expect(() => regressTemperature(readings, daily.slice(0, 5))).toThrow(/at least 10/);
    expect(() => regressTemperature(readings, new Float64Array(200).fill(20))).toThrow(
      /must change/,
    );
    const gap = readings.period.slice();
    gap[3] = Number.NaN;
    expect(() => regressTemperature({ ...readings, period: gap }, daily)).toThrow(/no gaps/);
  });
});
