import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  gammaDensityTimesX,
  lowerIncompleteGamma,
  upperIncompleteGamma,
} from "../../src/numeric/index.ts";
import { worstRelativeError } from "./high-precision.ts";

describe("lowerIncompleteGamma and upperIncompleteGamma", () => {
  it("are within 1e-13 of high-precision values, shapes 0.05 to 200 000", () => {
    expect(worstRelativeError("lowerIncompleteGamma", lowerIncompleteGamma)).toBeLessThan(1e-13);
    expect(worstRelativeError("upperIncompleteGamma", upperIncompleteGamma)).toBeLessThan(1e-13);
  });

  it("are the exponential law for shape 1 and Poisson sums for whole shapes (DLMF 8.4)", () => {
    for (const x of [0.01, 1, 5, 20]) {
      expect(Math.abs(lowerIncompleteGamma(1, x) + Math.expm1(-x))).toBeLessThan(1e-15);
      let sum = 0;
      let term = Math.exp(-x);
      for (let k = 0; k < 7; k++) {
        sum += term;
        term *= x / (k + 1);
      }
      expect(Math.abs(upperIncompleteGamma(7, x) / sum - 1)).toBeLessThan(1e-14);
    }
  });

  it("add up to 1 and obey P(a + 1, x) = P(a, x) − xᵃe⁻ˣ/Γ(a + 1) (DLMF 8.8.5)", () => {
    const shape = fc.double({ min: 0.01, max: 300, noNaN: true });
    const ratio = fc.double({ min: 0.01, max: 3, noNaN: true });
    fc.assert(
      fc.property(shape, ratio, (a, r) => {
        const x = a * r;
        const p = lowerIncompleteGamma(a, x);
        expect(Math.abs(p + upperIncompleteGamma(a, x) - 1)).toBeLessThan(1e-13);
        const next = p - gammaDensityTimesX(a, x) / a;
        expect(Math.abs(lowerIncompleteGamma(a + 1, x) - next)).toBeLessThan(1e-13);
      }),
      { seed: 13, numRuns: 500 },
    );
  });

  it("are 0 and 1 at the ends, and refuse what is out of range", () => {
    expect([lowerIncompleteGamma(2, 0), lowerIncompleteGamma(2, Infinity)]).toEqual([0, 1]);
    expect([upperIncompleteGamma(2, 0), upperIncompleteGamma(2, Infinity)]).toEqual([1, 0]);
    expect(() => lowerIncompleteGamma(0, 1)).toThrow(RangeError);
    expect(() => upperIncompleteGamma(1, -1)).toThrow(RangeError);
    expect(() => upperIncompleteGamma(NaN, 1)).toThrow(RangeError);
  });
});
