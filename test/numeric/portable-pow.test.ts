import { describe, expect, it } from "vitest";
import { pow } from "../../src/numeric/index.ts";

const rounding = Number.EPSILON / 2;

describe("pow", () => {
  it("of integers is what exact integer arithmetic gives", () => {
    for (const base of [2, 3, 7, 10, 999]) {
      for (let n = 0; n <= 40; n++) {
        const exact = Number(BigInt(base) ** BigInt(n));
        expect(Math.abs(pow(base, n) / exact - 1)).toBeLessThanOrEqual(n * rounding);
        expect(Math.abs(pow(base, -n) * exact - 1)).toBeLessThanOrEqual((n + 2) * rounding);
      }
    }
  });

  it("of two, and of ten up to 10²², is exact", () => {
    // IEEE 754: 10²² is the largest power of ten that is a double.
    for (let n = 0; n <= 22; n++) expect(pow(10, n)).toBe(Number(`1e${n}`));
    for (let n = 0; n <= 22; n++) expect(pow(10, -n)).toBe(Number(`1e-${n}`));
    let double = 1;
    for (let n = 0; n < 1024; n++, double *= 2) expect(pow(2, n)).toBe(double);
  });

  it("goes on where the power of the opposite sign overflows or is subnormal", () => {
    // Decimal literals, which ECMA-262 rounds correctly; a subnormal near 1e-310 has a spacing of 4.9e-324.
    expect(pow(2, -1024)).toBe(2.2250738585072014e-308 / 4);
    expect(Math.abs(pow(10, -310) - 1e-310)).toBeLessThan(1e-323);
    expect(Math.abs(pow(0.1, -308) / 1e308 - 1)).toBeLessThan(308 * 4 * rounding);
    expect(pow(0, -7)).toBe(Number.POSITIVE_INFINITY);
    expect(pow(1e200, -7)).toBe(0);
  });

  it("with an exponent of n/2 or n/4 is a product of square roots, which IEEE 754 rounds correctly", () => {
    for (const x of [1e-12, 0.3, 1.0001, 2, 86_400, 3e17]) {
      const bound = 8 * (1 + Math.abs(Math.log(x))) * rounding;
      const root = Math.sqrt(x);
      expect(Math.abs(pow(x, 0.5) / root - 1)).toBeLessThan(bound);
      expect(Math.abs(pow(x, 1.5) / (x * root) - 1)).toBeLessThan(bound);
      expect(Math.abs(pow(x, -0.25) * Math.sqrt(root) - 1)).toBeLessThan(bound);
    }
  });

  it("follows ECMA-262 Math.pow at the edges", () => {
    for (const [x, a] of [
      [0, 0],
      [0, 0.5],
      [0, -0.5],
      [0, 2],
      [0, -2],
      [1, 1e9],
      [Number.NaN, 2],
      [2, 5000],
      [2, -5000],
      [Number.POSITIVE_INFINITY, 0.5],
      [Number.POSITIVE_INFINITY, -0.5],
      [-2, 0.5],
    ] as const) {
      expect(pow(x, a)).toBe(x ** a);
    }
  });
});
