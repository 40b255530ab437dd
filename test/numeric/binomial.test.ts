import { describe, expect, it } from "vitest";
import { binomial, RandomStream } from "../../src/numeric/index.ts";
import { chiSquareExcess, draws, mean, variance } from "./deviates.ts";

/** C(n, k)·pᵏ·(1 − p)^(n−k) by adding logarithms one by one. */
function binomialLaw(n: number, p: number): (k: number) => number {
  return (k) => {
    let sum = (n - k) * Math.log1p(-p);
    for (let i = 1; i <= k; i++) {
      sum += Math.log(((n - k + i) * p) / i);
    }
    return Math.exp(sum);
  };
}

describe("binomial", () => {
  const count = 50_000;

  it("follows its law by inversion, near the change of method and by rejection: chi-square within 5 σ", () => {
    const cases = [
      [1, 0.3],
      [7, 0.5],
      [20, 0.49],
      [20, 0.5],
      [25, 0.41],
      [40, 0.75],
      [1000, 0.002],
      [1000, 0.3],
      [1e9, 5e-9],
      [1e9, 2e-8],
    ] as const;
    for (const [n, p] of cases) {
      const k = draws(`binomial ${n} ${p}`, count, (stream) => binomial(stream, n, p));
      expect(Math.abs(chiSquareExcess(k, binomialLaw(n, p))), `n ${n}, p ${p}`).toBeLessThan(5);
    }
  });

  it("has mean np and variance np(1 − p) within 5 σ up to a billion trials", () => {
    for (const [n, p] of [
      [50, 0.1],
      [1e6, 0.37],
      [1e9, 1e-3],
      [1e9, 0.999999],
    ] as const) {
      const k = draws(`moments ${n} ${p}`, count, (stream) => binomial(stream, n, p));
      const v = n * p * (1 - p);
      expect(Math.abs(mean(k) - n * p)).toBeLessThan(5 * Math.sqrt(v / count));
      // Variance of the squared distance: 2v² + v(1 − 6p(1 − p)).
      const spread = Math.sqrt((2 * v * v + v * (1 - 6 * p * (1 - p))) / count);
      expect(Math.abs(variance(k, n * p) - v)).toBeLessThan(5 * spread);
    }
  });

  it("is certain at the ends without drawing, and refuses what it cannot mean", () => {
    const stream = new RandomStream("edge", "test");
    expect([binomial(stream, 0, 0.5), binomial(stream, 9, 0), binomial(stream, 9, 1)]).toEqual([
      0, 0, 9,
    ]);
    expect(stream.word()).toBe(new RandomStream("edge", "test").word());
    expect(() => binomial(stream, 1.5, 0.5)).toThrow(RangeError);
    expect(() => binomial(stream, -1, 0.5)).toThrow(RangeError);
    expect(() => binomial(stream, 5, 1.01)).toThrow(RangeError);
    expect(() => binomial(stream, 5, NaN)).toThrow(RangeError);
  });
});
