import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { overlappingAllanDeviation } from "../../../src/analysis/index.ts";

describe("overlappingAllanDeviation", () => {
  it("is zero for a constant frequency offset", () => {
    const x = Float64Array.from({ length: 101 }, (_, i) => 5 + 2 * i);
    expect(overlappingAllanDeviation(x, 1, 7)).toBe(0);
  });

  it("is D·τ/√2 for linear frequency drift D", () => {
    const drift = 2 ** -30; // 1/s; a power of two, so every term is exact
    const x = Float64Array.from({ length: 64 }, (_, i) => (drift * i * i) / 2);
    expect(overlappingAllanDeviation(x, 1, 8) / ((drift * 8) / Math.SQRT2)).toBeCloseTo(1, 14);
  });

  it("scales with the record: σ(k·x) = |k|·σ(x)", () => {
    const record = fc.array(fc.integer({ min: -1e6, max: 1e6 }), { minLength: 9, maxLength: 40 });
    fc.assert(
      fc.property(record, (values) => {
        const x = Float64Array.from(values);
        const scaled = x.map((v) => -4 * v);
        expect(overlappingAllanDeviation(scaled, 1, 2)).toBe(
          4 * overlappingAllanDeviation(x, 1, 2),
        );
      }),
      { seed: 1139 },
    );
  });

  it("is blind to the direction of time", () => {
    const record = fc.array(fc.integer({ min: -1e6, max: 1e6 }), { minLength: 9, maxLength: 40 });
    fc.assert(
      fc.property(record, (values) => {
        const x = Float64Array.from(values);
        const sigma = overlappingAllanDeviation(x, 1, 3);
        expect(overlappingAllanDeviation(x.toReversed(), 1, 3)).toBeCloseTo(sigma, 8);
      }),
      { seed: 1140 },
    );
  });

  it("keeps a gap visible, or leaves out the terms that touch it", () => {
    // Second differences with lag 2 of i³: 24(i + 2); without the terms that use x[4] (i = 0, 2, 4): i = 1, 3, 5.
    const x = Float64Array.from({ length: 10 }, (_, i) => (i === 4 ? Number.NaN : i ** 3));
    expect(overlappingAllanDeviation(x, 1, 2)).toBeNaN();
    const mean = (72 ** 2 + 120 ** 2 + 168 ** 2) / 3;
    expect(overlappingAllanDeviation(x, 1, 2, "skip")).toBeCloseTo(Math.sqrt(mean / 8), 10);
  });

  it.each([0, 1.5, 50, Number.NaN])("throws RangeError naming m when m = %s", (m) => {
    const x = new Float64Array(100);
    expect(() => overlappingAllanDeviation(x, 1, m)).toThrow(/m must be an integer/);
  });

  it("throws RangeError naming tau0 when it is not positive", () => {
    expect(() => overlappingAllanDeviation(new Float64Array(9), 0, 1)).toThrow(/tau0 must be > 0/);
  });
});
