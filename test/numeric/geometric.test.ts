import { describe, expect, it } from "vitest";
import { geometric } from "../../src/numeric/geometric.ts";
import { RandomStream } from "../../src/numeric/random-stream.ts";
import { chiSquareExcess, draws, mean } from "./deviates.ts";

describe("geometric", () => {
  const n = 50_000;

  it("follows p(1 − p)^(k−1): Pearson's chi-square within 5 σ", () => {
    for (const p of [0.9, 0.5, 0.1]) {
      const k = draws(`geometric ${p}`, n, (stream) => geometric(stream, p));
      expect(Math.abs(chiSquareExcess(k, (i) => p * (1 - p) ** (i - 1)))).toBeLessThan(5);
    }
  });

  it("has mean 1/p for rare successes, within 5 σ", () => {
    const p = 1e-9;
    const k = draws("rare", n, (stream) => geometric(stream, p));
    expect(Math.abs(mean(k) * p - 1)).toBeLessThan(5 / Math.sqrt(n));
  });

  it("is 1 for certain success, and refuses what is no probability", () => {
    const stream = new RandomStream("edge", "test");
    expect(geometric(stream, 1)).toBe(1);
    for (const p of [0, -0.1, 1.1, NaN]) {
      expect(() => geometric(stream, p)).toThrow(RangeError);
    }
  });
});
