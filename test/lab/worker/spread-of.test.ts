import { describe, expect, it } from "vitest";
import { spreadOf } from "../../../src/lab/index.ts";

const series = (rate: Float64Array, truth: Float64Array) => ({
  rate,
  truth,
  start: rate,
  cycles: rate,
  period: rate,
  truthOverall: 0,
  nominalPeriod: 1,
});

describe("spreadOf", () => {
  // s² = 10/9 by hand. Quantiles of chi-square with 9 degrees of freedom: 2.700 and 19.023
  // (NIST/SEMATECH e-Handbook, table 1.3.6.7.4).
  it("is the standard deviation with its interval by chi-square", () => {
    const rate = Float64Array.from({ length: 10 }, (_, i) => (i % 2 === 0 ? 1 : -1));
    const { rms, low, high, readings } = spreadOf(series(rate, new Float64Array(10)));
    expect(readings).toBe(10);
    expect(rms).toBeCloseTo(Math.sqrt(10 / 9), 14);
    expect(low).toBeCloseTo(Math.sqrt(10 / 19.023), 4);
    expect(high).toBeCloseTo(Math.sqrt(10 / 2.7), 3);
  });

  it("is about the truth of each reading, and does not see what shifts all alike", () => {
    const truth = Float64Array.of(1, 5, -3, 8);
    const { rms } = spreadOf(
      series(
        truth.map((value) => value + 7),
        truth,
      ),
    );
    expect(rms).toBe(0);
  });

  it("leaves out readings that give no rate", () => {
    const { readings } = spreadOf(series(Float64Array.of(1, Number.NaN, 2), new Float64Array(3)));
    expect(readings).toBe(2);
  });
});
