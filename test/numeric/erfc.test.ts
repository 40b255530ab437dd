import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { erfc, erfcx } from "../../src/numeric/index.ts";
import { worstRelativeError } from "./high-precision.ts";

describe("erfc", () => {
  it("is within 1e-15 of high-precision values, far into the tail", () => {
    expect(worstRelativeError("erfc", erfc)).toBeLessThan(1e-15);
  });

  it("has the values printed in Abramowitz & Stegun, table 7.1 (erf), to ten decimals [from memory]", () => {
    expect(1 - erfc(0.5)).toBeCloseTo(0.5204998778, 10);
    expect(1 - erfc(1)).toBeCloseTo(0.8427007929, 10);
    expect(1 - erfc(2)).toBeCloseTo(0.995322265, 10);
  });

  it("is exact at 0 and ±∞ and hands on NaN", () => {
    expect([0, Infinity, -Infinity, NaN].map(erfc)).toEqual([1, 0, 2, NaN]);
  });

  it("adds up to 2 with its mirror image and falls all the way", () => {
    fc.assert(
      fc.property(fc.double({ min: -6, max: 6, noNaN: true }), (x) => {
        expect(Math.abs(erfc(x) + erfc(-x) - 2)).toBeLessThan(1e-15);
        expect(erfc(x + 1e-3)).toBeLessThanOrEqual(erfc(x));
      }),
      { seed: 10, numRuns: 500 },
    );
  });
});

describe("erfcx", () => {
  it("is within 2e-15 of high-precision values", () => {
    expect(worstRelativeError("erfcx", erfcx)).toBeLessThan(2e-15);
  });

  it("meets its asymptotic series 1/(x√π)·(1 − 1/(2x²)) (DLMF 7.12.1) far out", () => {
    for (const x of [1e5, 1e7, 1e9, 1e200]) {
      const series = (1 / (x * Math.sqrt(Math.PI))) * (1 - 0.5 / x / x);
      expect(Math.abs(erfcx(x) / series - 1)).toBeLessThan(1e-15);
    }
  });

  it("is 1 at 0, 0 and ∞ at the ends, and hands on NaN", () => {
    expect([0, Infinity, -Infinity, NaN].map(erfcx)).toEqual([1, 0, Infinity, NaN]);
  });
});
