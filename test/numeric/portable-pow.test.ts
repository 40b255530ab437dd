import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pow } from "../../src/numeric/portable-pow.ts";
import { rounding, worstRelativeError } from "./high-precision.ts";

describe("pow", () => {
  it("is within 1 unit in the last place of high-precision values", () => {
    expect(worstRelativeError("pow", pow)).toBeLessThan(2 * rounding);
  });

  it("follows the operator ** of ECMA-262 at the edges", () => {
    const edges = [0, -0, 1, -1, 0.5, -2, 3, -3, Infinity, -Infinity, NaN];
    for (const x of edges) {
      for (const y of edges) {
        expect(Math.abs(pow(x, y)), `pow(${x}, ${y})`).toBe(Math.abs(x ** y));
        if (x !== 0) {
          expect(pow(x, y) < 0, `sign of pow(${x}, ${y})`).toBe(x ** y < 0);
        }
      }
    }
  });

  it("gives powers of ten and two exactly where a double holds them", () => {
    for (let n = 0; n <= 22; n++) {
      expect(pow(10, n)).toBe(Number(10n ** BigInt(n)));
    }
    expect(pow(2, -1074)).toBe(Number.MIN_VALUE);
    expect(pow(2, 1023)).toBe(2 ** 1023);
  });

  it("agrees with the square root and the cube", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-90, max: 1e90, noNaN: true }), (x) => {
        expect(Math.abs(pow(x, 1.5) / (x * Math.sqrt(x)) - 1)).toBeLessThan(5 * rounding);
        expect(Math.abs(pow(x, 3) / (x * x * x) - 1)).toBeLessThan(5 * rounding);
      }),
      { seed: 4, numRuns: 500 },
    );
  });
});
