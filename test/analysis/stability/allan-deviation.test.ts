import { describe, expect, it } from "vitest";
import { allanDeviation } from "../../../src/analysis/index.ts";

describe("allanDeviation", () => {
  it("is the root of half the mean squared difference of neighbouring means, written out", () => {
    // Means over two readings: 1, 4, 2 (the last reading is left over): differences 3, −2.
    const x = Float64Array.from([0, 0, 2, 6, 10, 11, 14, 100]);
    expect(allanDeviation(x, 1, 2)).toBeCloseTo(Math.sqrt((9 + 4) / 2 / 2), 14);
  });

  it("is D·τ/√2 for linear frequency drift D", () => {
    const x = Float64Array.from({ length: 64 }, (_, i) => i * i);
    expect(allanDeviation(x, 0.5, 4)).toBeCloseTo((8 * 2) / Math.SQRT2, 12);
  });

  it("throws RangeError naming m where no two means fit", () => {
    expect(() => allanDeviation(new Float64Array(9), 1, 4.5)).toThrow(/m must be an integer/);
    expect(() => allanDeviation(new Float64Array(8), 1, 4)).toThrow(/2m < N = 8/);
  });
});
