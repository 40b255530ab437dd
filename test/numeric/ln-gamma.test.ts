import { describe, expect, it } from "vitest";
import { lnGamma } from "../../src/numeric/index.ts";
import { worstRelativeError } from "./high-precision.ts";

describe("lnGamma", () => {
  it("is within 1e-14 of high-precision values", () => {
    expect(worstRelativeError("lnGamma", lnGamma)).toBeLessThan(1e-14);
  });

  it("is ln (n − 1)! for whole numbers and ½ ln π at ½", () => {
    let factorial = 1;
    for (let n = 1; n <= 18; n++) {
      expect(Math.abs(lnGamma(n) - Math.log(factorial))).toBeLessThan(1e-14);
      factorial *= n;
    }
    expect(Math.abs(lnGamma(0.5) - 0.5 * Math.log(Math.PI))).toBeLessThan(4e-15);
  });

  it("obeys the reflection formula Γ(x)Γ(1 − x) = π/sin πx (DLMF 5.5.3)", () => {
    for (const x of [0.01, 0.2, 0.37, 0.5, 0.99]) {
      const expected = Math.log(Math.PI / Math.sin(Math.PI * x));
      expect(Math.abs(lnGamma(x) + lnGamma(1 - x) - expected)).toBeLessThan(1e-14);
    }
  });

  it("refuses arguments that are not positive", () => {
    for (const x of [0, -0.5, NaN]) {
      expect(() => lnGamma(x)).toThrow(RangeError);
    }
  });
});
