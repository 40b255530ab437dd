import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exp, expm1, log } from "../../src/numeric/index.ts";
import { rounding, worstRelativeError } from "./high-precision.ts";

describe("exp", () => {
  it("is within 1 unit in the last place of high-precision values", () => {
    expect(worstRelativeError("exp", exp)).toBeLessThan(2 * rounding);
  });

  it("is exact at 0 and follows ECMA-262 Math.exp at the edges", () => {
    for (const x of [0, -0, Infinity, -Infinity, NaN, 709.9, -745.2, -746, -1e9, 1e9]) {
      expect(exp(x)).toBe(Math.exp(x));
    }
    expect(exp(-745)).toBe(Number.MIN_VALUE);
  });

  it("undoes the logarithm", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-300, max: 1e300, noNaN: true }), (x) => {
        const back = exp(log(x));
        // The rounding of the logarithm comes back multiplied by its size.
        expect(Math.abs(back / x - 1)).toBeLessThanOrEqual(3e-16 * (1 + Math.abs(log(x))));
      }),
      { seed: 2, numRuns: 500 },
    );
  });
});

describe("expm1", () => {
  it("is within 2 units in the last place of high-precision values", () => {
    expect(worstRelativeError("expm1", expm1)).toBeLessThan(4 * rounding);
  });

  it("follows ECMA-262 Math.expm1 at the edges, and is x itself for tiny x", () => {
    for (const x of [0, -0, Infinity, -Infinity, NaN, 1e-20, -1e-300, -50, 710]) {
      expect(expm1(x)).toBe(Math.expm1(x));
    }
  });
});
