import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { log, log1p } from "../../src/numeric/index.ts";
import { rounding, worstRelativeError } from "./high-precision.ts";

const seeded = { seed: 1, numRuns: 500 };

describe("log", () => {
  it("is within 1 unit in the last place of high-precision values", () => {
    expect(worstRelativeError("log", log)).toBeLessThan(2 * rounding);
  });

  it("is exact at 1 and follows ECMA-262 Math.log at the edges", () => {
    for (const x of [1, 0, -0, -1, Infinity, -Infinity, NaN]) {
      expect(log(x)).toBe(Math.log(x));
    }
  });

  it("turns products into sums, subnormal numbers included", () => {
    const positive = fc.double({ min: 1e-320, max: 1e150, noNaN: true });
    const factor = fc.double({ min: 1, max: 1e150, noNaN: true });
    fc.assert(
      fc.property(positive, factor, (x, y) => {
        const size = Math.abs(log(x)) + Math.abs(log(y));
        // The product of subnormal numbers is itself rounded: only normal ones keep the law.
        fc.pre(x * y > 1e-300 && x > 1e-300);
        expect(Math.abs(log(x * y) - log(x) - log(y))).toBeLessThanOrEqual(4e-16 * (1 + size));
      }),
      seeded,
    );
  });
});

describe("log1p", () => {
  it("is within 1.5 units in the last place of high-precision values", () => {
    expect(worstRelativeError("log1p", log1p)).toBeLessThan(3 * rounding);
  });

  it("follows ECMA-262 Math.log1p at the edges, and is x itself for tiny x", () => {
    for (const x of [0, -0, -1, -2, Infinity, NaN, 1e-20, -1e-300]) {
      expect(log1p(x)).toBe(Math.log1p(x));
    }
  });
});
