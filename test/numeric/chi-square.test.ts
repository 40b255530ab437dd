import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chiSquareQuantile, lowerIncompleteGamma } from "../../src/numeric/index.ts";
import { worstRelativeError } from "./high-precision.ts";

describe("chiSquareQuantile", () => {
  it("is within 1e-12 of high-precision values, 0.1 to 40 000 degrees of freedom", () => {
    expect(worstRelativeError("chiSquareQuantile", chiSquareQuantile)).toBeLessThan(1e-12);
  });

  it("has the limits 3.94 and 18.3 for 10 degrees of freedom at 90 % (NIST TN 1337, p. 213)", () => {
    expect(chiSquareQuantile(0.05, 10)).toBeCloseTo(3.94, 2);
    expect(chiSquareQuantile(0.95, 10)).toBeCloseTo(18.3, 1);
  });

  it("has the factors on a standard deviation at 95 %, by independent computation, to 5 digits", () => {
    const factors = [
      [1, 0.44615, 31.91],
      [2, 0.52066, 6.2847],
      [5, 0.62421, 2.4526],
      [10, 0.69872, 1.7549],
      [20, 0.76506, 1.4441],
      [100, 0.87854, 1.1607],
    ] as const;
    for (const [dof, low, high] of factors) {
      expect(Math.sqrt(dof / chiSquareQuantile(0.975, dof)) / low - 1).toBeCloseTo(0, 4);
      expect(Math.sqrt(dof / chiSquareQuantile(0.025, dof)) / high - 1).toBeCloseTo(0, 4);
    }
  });

  it("has the limits 114.597 and 181.541 for 146.177 degrees of freedom, by independent computation", () => {
    expect(chiSquareQuantile(0.025, 146.177)).toBeCloseTo(114.597, 3);
    expect(chiSquareQuantile(0.975, 146.177)).toBeCloseTo(181.541, 3);
  });

  it("is −2 ln(1 − p) for 2 degrees of freedom", () => {
    for (const p of [1e-6, 0.3, 0.5, 0.9, 0.999]) {
      expect(Math.abs(chiSquareQuantile(p, 2) / (-2 * Math.log1p(-p)) - 1)).toBeLessThan(1e-13);
    }
  });

  it("has the law of a squared Gaussian for 1 degree of freedom: 68.27, 95.45, 99.73 % within 1, 2, 3 σ", () => {
    expect(chiSquareQuantile(0.6826894921370859, 1)).toBeCloseTo(1, 10);
    expect(chiSquareQuantile(0.9544997361036416, 1)).toBeCloseTo(4, 10);
    expect(chiSquareQuantile(0.9973002039367398, 1)).toBeCloseTo(9, 10);
  });

  it("undoes the distribution function for any degrees of freedom from 0.1 to 1e7", () => {
    const logDof = fc.double({ min: -1, max: 7, noNaN: true });
    const probability = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });
    fc.assert(
      fc.property(logDof, probability, (log10, p) => {
        const dof = 10 ** log10;
        // F(x; ν) = P(ν/2, x/2).
        const back = lowerIncompleteGamma(0.5 * dof, 0.5 * chiSquareQuantile(p, dof));
        // A relative error of 1e-14 of x ≈ ν counts √ν-fold.
        const allowed = 1e-12 + 1e-14 * Math.sqrt(dof);
        expect(Math.abs(back - p) / Math.min(p, 1 - p)).toBeLessThan(10 * allowed);
      }),
      { seed: 15, numRuns: 200 },
    );
  });

  it("is 0 and ∞ at the ends, and refuses what is out of range", () => {
    expect([chiSquareQuantile(0, 3), chiSquareQuantile(1, 3)]).toEqual([0, Infinity]);
    expect(() => chiSquareQuantile(0.5, 0)).toThrow(RangeError);
    expect(() => chiSquareQuantile(-0.1, 1)).toThrow(RangeError);
    expect(() => chiSquareQuantile(0.5, NaN)).toThrow(RangeError);
  });
});
