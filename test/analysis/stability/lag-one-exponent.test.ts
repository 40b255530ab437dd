import { describe, expect, it } from "vitest";
import { lagOneExponent } from "../../../src/analysis/stability/lag-one-exponent.ts";
import { timeErrorFromRates } from "../../../src/analysis/stability/time-error-from-rates.ts";
import { RandomStream } from "../../../src/numeric/random-stream.ts";
import { checksLike, lcgRates } from "./reference-sets.ts";

describe("lagOneExponent", () => {
  // NIST SP 1065, section 5.5.3, evaluated independently on the 1000-point set.
  it.each(checksLike(/^lag1\./))("of the 1000-point set is $computed ($id, $source)", (check) => {
    const m = Number(/m(\d+)$/.exec(check.id)![1]);
    const alpha = lagOneExponent(timeErrorFromRates(lcgRates, 1), "time_error", m);
    expect(alpha).toBeCloseTo(check.expected, 9);
  });

  it("is the same from rates as from the time errors they make, where one difference is taken", () => {
    const fromRates = lagOneExponent(lcgRates, "rate");
    expect(fromRates).toBeCloseTo(lagOneExponent(timeErrorFromRates(lcgRates, 1), "time_error"), 9);
  });

  it("is 2 for white PM and 0 for white FM", () => {
    // α̂ = −2r₁ near zero, σ = 2/√n = 0.02 for n = 10 000; 4σ.
    const white = new Float64Array(10000);
    new RandomStream("white", "lag-one").fillNormal(white, 0, white.length);
    expect(Math.abs(lagOneExponent(white, "time_error") - 2)).toBeLessThan(0.08);
    expect(Math.abs(lagOneExponent(white, "rate"))).toBeLessThan(0.08);
  });

  it("leaves out gaps, and gives NaN where nothing varies or too little is left", () => {
    const gaps = lcgRates.map((y, i) => (i % 97 === 5 ? Number.NaN : y));
    expect(Math.abs(lagOneExponent(gaps, "rate") - lagOneExponent(lcgRates, "rate"))).toBeLessThan(
      0.1,
    );
    expect(lagOneExponent(new Float64Array(50).fill(3), "rate")).toBeNaN();
    expect(lagOneExponent(Float64Array.from([1, 2, 0]), "rate")).toBeNaN();
  });

  it("leaves the record as it was, and throws RangeError naming m", () => {
    const x = Float64Array.from([1, 2, 4, 8, 16, 32]);
    lagOneExponent(x, "time_error");
    expect([...x]).toEqual([1, 2, 4, 8, 16, 32]);
    expect(() => lagOneExponent(x, "rate", 0)).toThrow(/m must be an integer/);
  });
});
