import { describe, expect, it } from "vitest";
import { hadamardDeviation, overlappingHadamardDeviation } from "../../../src/analysis/index.ts";

describe.each([
  ["hadamardDeviation", hadamardDeviation],
  ["overlappingHadamardDeviation", overlappingHadamardDeviation],
])("%s", (_, deviation) => {
  it("is zero for linear frequency drift", () => {
    const x = Float64Array.from({ length: 80 }, (_, i) => 3 + 5 * i - 0.5 * i * i);
    expect(deviation(x, 1, 7)).toBe(0);
  });

  it("is √6·c·τ² for x = c·t³, whose third difference is 6cτ³", () => {
    const x = Float64Array.from({ length: 80 }, (_, i) => 2 * i ** 3);
    expect(deviation(x, 1, 5)).toBeCloseTo(Math.sqrt(6) * 2 * 25, 10);
  });

  it("keeps a gap visible, or leaves out the terms that touch it", () => {
    const x = Float64Array.from({ length: 80 }, (_, i) => (i === 20 ? Number.NaN : 2 * i ** 3));
    expect(deviation(x, 1, 5)).toBeNaN();
    expect(deviation(x, 1, 5, "skip")).toBeCloseTo(Math.sqrt(6) * 2 * 25, 10);
  });

  it("throws RangeError naming m where no term fits", () => {
    expect(() => deviation(new Float64Array(15), 1, 5)).toThrow(/3m < N = 15/);
  });
});
