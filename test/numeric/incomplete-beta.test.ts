import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { incompleteBeta } from "../../src/numeric/index.ts";
import { worstRelativeError } from "./high-precision.ts";

describe("incompleteBeta", () => {
  it("is within 1e-12 of high-precision values", () => {
    expect(worstRelativeError("incompleteBeta", incompleteBeta)).toBeLessThan(1e-12);
  });

  it("has its closed forms: powers for a shape of 1, the arc sine for halves, a polynomial for 2 and 3", () => {
    for (const x of [0.001, 0.2, 0.5, 0.93]) {
      expect(Math.abs(incompleteBeta(2.5, 1, x) / x ** 2.5 - 1)).toBeLessThan(2e-14);
      expect(Math.abs(incompleteBeta(1, 2.5, x) - (1 - (1 - x) ** 2.5))).toBeLessThan(2e-14);
      const arc = (2 / Math.PI) * Math.asin(Math.sqrt(x));
      expect(Math.abs(incompleteBeta(0.5, 0.5, x) / arc - 1)).toBeLessThan(2e-14);
      const polynomial = x * x * (6 - 8 * x + 3 * x * x);
      expect(Math.abs(incompleteBeta(2, 3, x) / polynomial - 1)).toBeLessThan(2e-14);
    }
  });

  it("adds up to 1 with its mirror image (DLMF 8.17.4)", () => {
    const shape = fc.double({ min: 0.05, max: 500, noNaN: true });
    const unit = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(shape, shape, unit, (a, b, x) => {
        const sum = incompleteBeta(a, b, x) + incompleteBeta(b, a, 1 - x, x);
        expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
      }),
      { seed: 14, numRuns: 500 },
    );
  });

  it("is 0 and 1 at the ends, and refuses what is out of range", () => {
    expect([incompleteBeta(2, 3, 0), incompleteBeta(2, 3, 1)]).toEqual([0, 1]);
    expect(() => incompleteBeta(0, 1, 0.5)).toThrow(RangeError);
    expect(() => incompleteBeta(1, 1, 1.5)).toThrow(RangeError);
    expect(() => incompleteBeta(1, 1, NaN)).toThrow(RangeError);
  });
});
