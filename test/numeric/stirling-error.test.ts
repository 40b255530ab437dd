import { describe, expect, it } from "vitest";
import { stirlingError } from "../../src/numeric/index.ts";

describe("stirlingError", () => {
  it("is ln n! less Stirling's formula, with factorials in integer arithmetic", () => {
    let factorial = 1n;
    for (let n = 1; n <= 20; n++) {
      factorial *= BigInt(n);
      const expected =
        Math.log(Number(factorial)) - ((n + 0.5) * Math.log(n) - n + 0.5 * Math.log(2 * Math.PI));
      // The direct difference loses digits in proportion to ln n!, at most 42.
      expect(Math.abs(stirlingError(n) - expected)).toBeLessThan(2e-14);
    }
  });

  it("has the closed forms δ(1) = 1 − ½ ln 2π and δ(½) = ½ − ½ ln 2 (from Γ(3/2) = √π/2)", () => {
    expect(Math.abs(stirlingError(1) - (1 - 0.5 * Math.log(2 * Math.PI)))).toBeLessThan(2e-15);
    // ln(√π/2) − ln ½ + ½ − ½·ln 2π.
    expect(Math.abs(stirlingError(0.5) - (0.5 - 0.5 * Math.log(2)))).toBeLessThan(2e-15);
  });

  it("lies between 1/(12n + 1) and 1/(12n) (Robbins 1955) for whole numbers", () => {
    for (const n of [1, 5, 11, 12, 13, 1000, 100_000]) {
      expect(stirlingError(n)).toBeGreaterThan(1 / (12 * n + 1));
      expect(stirlingError(n)).toBeLessThan(1 / (12 * n));
    }
  });
});
