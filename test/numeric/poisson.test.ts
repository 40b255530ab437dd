import { describe, expect, it } from "vitest";
import { poisson } from "../../src/numeric/poisson.ts";
import { RandomStream } from "../../src/numeric/random-stream.ts";
import { chiSquareExcess, draws, mean, variance } from "./deviates.ts";

/** μᵏ·e^(−μ)/k! by adding logarithms one by one. */
function poissonLaw(mu: number): (k: number) => number {
  return (k) => {
    let sum = -mu;
    for (let i = 1; i <= k; i++) {
      sum += Math.log(mu / i);
    }
    return Math.exp(sum);
  };
}

describe("poisson", () => {
  const n = 50_000;

  it("follows its law by inversion, near the change of method and by rejection: chi-square within 5 σ", () => {
    for (const mu of [0.01, 0.7, 4, 9.99, 10, 10.5, 35, 400]) {
      const k = draws(`poisson ${mu}`, n, (stream) => poisson(stream, mu));
      expect(Math.abs(chiSquareExcess(k, poissonLaw(mu))), `mean ${mu}`).toBeLessThan(5);
    }
  });

  it("has mean and variance μ within 5 σ up to 1e12", () => {
    for (const mu of [3, 80, 1e5, 1e9, 1e12]) {
      const k = draws(`moments ${mu}`, n, (stream) => poisson(stream, mu));
      expect(Math.abs(mean(k) - mu)).toBeLessThan(5 * Math.sqrt(mu / n));
      // Variance of the squared distance: 2μ² + μ.
      expect(Math.abs(variance(k, mu) - mu)).toBeLessThan(5 * Math.sqrt((2 * mu * mu + mu) / n));
    }
  });

  it("is 0 without drawing for mean 0, and refuses what is no mean", () => {
    const stream = new RandomStream("edge", "test");
    expect(poisson(stream, 0)).toBe(0);
    expect(stream.word()).toBe(new RandomStream("edge", "test").word());
    for (const mu of [-1, NaN, Infinity]) {
      expect(() => poisson(stream, mu)).toThrow(RangeError);
    }
  });
});
