import { describe, expect, it } from "vitest";
import { bias1, bias2, bias3 } from "../../../src/analysis/index.ts";
import { checksLike } from "./reference-sets.ts";

const arguments_ = (id: string): number[] => /\((.*)\)/.exec(id)![1]!.split(",").map(Number);

describe("bias1", () => {
  it.each(checksLike(/^bias\.B1/))("$quantity is $computed ($source)", ({ id, expected }) => {
    const [n, , mu] = arguments_(id) as [number, number, number];
    expect(bias1(n, mu) / expected).toBeCloseTo(1, 12);
  });

  it("goes smoothly through its limit at μ = 0", () => {
    expect(bias1(8, 1e-9)).toBeCloseTo(bias1(8, 0), 7);
  });

  it("throws RangeError naming n or mu", () => {
    expect(() => bias1(1, 0)).toThrow(/n must be an integer >= 2/);
    expect(() => bias1(2, 3)).toThrow(/mu must be between/);
  });
});

describe("bias2", () => {
  it.each(checksLike(/^bias\.B2/))("$quantity is $computed ($source)", ({ id, expected }) => {
    const [r, mu] = arguments_(id) as [number, number];
    expect(bias2(r, mu) / expected).toBeCloseTo(1, 9);
  });

  it.each([-2, -1.5, -1, 0, 0.5, 1, 2])("is one back to back, μ = %d", (mu) => {
    expect(bias2(1, mu)).toBeCloseTo(1, 14);
  });

  it.each([-1.5, 0, 0.5, 1])("joins its series at large r without a step, μ = %d", (mu) => {
    // B₂ rises or falls by less than |μ|·1e-9 or about 1e-10 between these.
    expect(bias2(100 + 1e-8, mu) / bias2(100, mu)).toBeCloseTo(1, 9);
  });

  it("throws RangeError naming r", () => {
    expect(() => bias2(0, 1)).toThrow(/r must be > 0/);
  });
});

describe("bias3", () => {
  // Formula of NIST TN 1318, evaluated independently; printed digits.
  it.each([
    [2, 1.1, 1, 0.96739],
    [4, 2, 1, 0.8125],
    [8, 10, 1, 0.6945],
    [2, 1.1, 0, 0.9472],
    [4, 2, 0, 0.7052],
    [8, 10, 0, 0.4332],
    [2, 1.1, -1, 1],
    [8, 10, -1, 1],
    [2, 1.1, -2, 2],
    [8, 10, -2, 8],
  ])("(2, M = %d, r = %d, μ = %d) is %d", (m, r, mu, expected) => {
    expect(Math.abs(bias3(m, r, mu) / expected - 1)).toBeLessThan(1.2e-4);
  });

  it("is one for M = 1 and back to back", () => {
    for (const mu of [-1.5, -1, 0, 1]) {
      expect(bias3(1, 3, mu)).toBeCloseTo(1, 12);
      expect(bias3(5, 1, mu)).toBeCloseTo(1, 11);
    }
  });

  it("agrees with the direct covariance of random-walk FM readings", () => {
    // Generalised autocovariance of x is |t|³: the variance of Σ w_i·x(t_i) is Σ w_i·w_j·|t_i − t_j|³.
    const variance = (starts: number[], gate: number, signs: number[]): number => {
      const points = starts.flatMap((t, i) => [
        [t + gate, signs[i]!] as const,
        [t, -signs[i]!] as const,
      ]);
      return points.reduce(
        (sum, [t, w]) => sum + points.reduce((s, [u, v]) => s + w * v * Math.abs(t - u) ** 3, 0),
        0,
      );
    };
    const starts = Array.from({ length: 8 }, (_, i) => 2.5 * i);
    const signs = starts.map((_, i) => (i < 4 ? -1 : 1));
    const long = variance([0, 10], 4, [-1, 1]);
    expect(bias3(4, 2.5, 1)).toBeCloseTo(variance(starts, 1, signs) / long, 12);
  });

  it("throws RangeError naming count", () => {
    expect(() => bias3(0.5, 2, 1)).toThrow(/count must be an integer >= 1/);
  });
});
