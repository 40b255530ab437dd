import { describe, expect, it } from "vitest";
import { exponential } from "../../src/numeric/index.ts";
import { draws, kolmogorov, mean, variance } from "./deviates.ts";

describe("exponential", () => {
  const n = 100_000;
  const x = draws("exponential", n, exponential);

  it("has mean 1 and variance 1 within 5 σ (σ of the variance √(8/n))", () => {
    expect(Math.abs(mean(x) - 1)).toBeLessThan(5 / Math.sqrt(n));
    expect(Math.abs(variance(x, 1) - 1)).toBeLessThan(5 * Math.sqrt(8 / n));
  });

  it("follows 1 − e⁻ˣ: Kolmogorov's distance below the limit passed once in 10 000", () => {
    expect(kolmogorov(x, (value) => -Math.expm1(-value))).toBeLessThan(2.23);
    expect(x.every((value) => value > 0)).toBe(true);
  });
});
