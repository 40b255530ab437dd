import { describe, expect, it } from "vitest";
import { inverseGaussian } from "../../src/numeric/inverse-gaussian.ts";
import { normalCdf } from "../../src/numeric/normal-cdf.ts";
import { RandomStream } from "../../src/numeric/random-stream.ts";
import { draws, kolmogorov, mean, variance } from "./deviates.ts";

/** Distribution of the first passage of level a under drift 1 and diffusion σ², Wald 1947. */
const firstPassage = (a: number, sigma: number) => (t: number) => {
  const root = sigma * Math.sqrt(t);
  return normalCdf((t - a) / root) + Math.exp((2 * a) / sigma ** 2) * normalCdf(-(t + a) / root);
};

describe("inverseGaussian", () => {
  const n = 100_000;

  it("has mean μ and variance μ³/λ within 5 σ", () => {
    for (const [mu, lambda] of [
      [1, 4],
      [0.008, 3],
      [2, 0.5],
    ] as const) {
      const x = draws(`inverse Gaussian ${mu}`, n, (stream) => inverseGaussian(stream, mu, lambda));
      const v = mu ** 3 / lambda;
      expect(Math.abs(mean(x) - mu)).toBeLessThan(5 * Math.sqrt(v / n));
      // Excess kurtosis 15μ/λ (Chhikara & Folks 1989).
      const spread = v * Math.sqrt((2 + (15 * mu) / lambda) / n);
      expect(Math.abs(variance(x, mu) - v)).toBeLessThan(5 * spread);
    }
  });

  it("follows Wald's first-passage law: Kolmogorov's distance below the limit passed once in 10 000", () => {
    for (const sigma of [0.2, 0.5, 1.5]) {
      const x = draws(`passage ${sigma}`, n, (stream) =>
        inverseGaussian(stream, 1, 1 / sigma ** 2),
      );
      expect(kolmogorov(x, firstPassage(1, sigma)), `σ ${sigma}`).toBeLessThan(2.23);
    }
  });

  it("stays positive and finite where the spread is far larger than the mean", () => {
    const x = draws("wide", 10_000, (stream) => inverseGaussian(stream, 1, 1e-12));
    expect(x.every((value) => value > 0 && value < Infinity)).toBe(true);
  });

  it("refuses means and shapes that are not positive and finite", () => {
    const stream = new RandomStream("edge", "test");
    expect(() => inverseGaussian(stream, 0, 1)).toThrow(RangeError);
    expect(() => inverseGaussian(stream, 1, -1)).toThrow(RangeError);
    expect(() => inverseGaussian(stream, Infinity, 1)).toThrow(RangeError);
  });
});
