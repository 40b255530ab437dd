import { describe, expect, it } from "vitest";
import { indexOfOne, powersOfTwo, scaleByPowerOfTwo } from "../../src/numeric/index.ts";

describe("powersOfTwo", () => {
  it("holds every power of two of IEEE 754 binary64, as the language's own operator gives them", () => {
    for (let n = -1074; n <= 1023; n++) {
      expect(powersOfTwo[indexOfOne + n]).toBe(2 ** n);
    }
    expect(powersOfTwo.length).toBe(1074 + 1 + 1023);
  });
});

describe("scaleByPowerOfTwo", () => {
  it("is exact for normal results and rounds once into the subnormal numbers", () => {
    expect(scaleByPowerOfTwo(1.5, 10)).toBe(1536);
    expect(scaleByPowerOfTwo(1.9999999999999998, 1023)).toBe(Number.MAX_VALUE);
    expect(scaleByPowerOfTwo(1, -1074)).toBe(Number.MIN_VALUE);
    // 1.5 × 2⁻¹⁰⁷⁴ lies halfway between the first two subnormal numbers: ties go to the even one.
    expect(scaleByPowerOfTwo(1.5, -1074)).toBe(2 * Number.MIN_VALUE);
  });

  it("overflows to infinity and underflows to zero", () => {
    expect(scaleByPowerOfTwo(1, 1024)).toBe(Infinity);
    expect(scaleByPowerOfTwo(1, -1076)).toBe(0);
  });
});
