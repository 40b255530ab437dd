import { describe, expect, it } from "vitest";
import type { NoiseType } from "../../../src/analysis/index.ts";
import { entireCosineIntegral, timeErrorCovariance } from "../../../src/analysis/index.ts";
import { checksLike, typeOfExponent } from "./reference-sets.ts";

/** Covariance of second differences of x with lag n, j apart, in sampling intervals. */
const second = (type: NoiseType, n: number, j: number, cutoff: number): number =>
  [1, -4, 6, -4, 1].reduce(
    (sum, c, k) => sum + c * timeErrorCovariance(type, Math.abs(j + (k - 2) * n), cutoff),
    0,
  );

/** Expected modified over expected Allan variance at averaging factor n. */
const ratio = (type: NoiseType, n: number, cutoff = 1): number => {
  let sum = 0;
  for (let l = 1 - n; l < n; l++) sum += (n - Math.abs(l)) * second(type, n, l, cutoff);
  return sum / (n * n * second(type, n, 0, cutoff));
};

describe("timeErrorCovariance", () => {
  const checks = checksLike(/^modratio\.n\d/).map((check) => {
    const [, n, rest] = /^modratio\.n(\d)\.(.*)$/.exec(check.id)!;
    const flicker = /FPM wh tau0=(.*)/.exec(rest!);
    const type = flicker ? "flicker_pm" : typeOfExponent(Number(rest!.replace("alpha", "")));
    // 2πf_h·τ₀ in the table, π·cutoff here.
    return { ...check, n: Number(n), type, cutoff: flicker ? Number(flicker[1]) / Math.PI : 1 };
  });

  // NIST TN 1337, Table 2, rows n = 2 … 6; printed to three digits, some entries only to about 2 %.
  it.each(checks)(
    "gives the ratio of modified to Allan variance $id = $expected ($source)",
    (check) => {
      const value = ratio(check.type, check.n, check.cutoff);
      expect(Math.abs(value / check.computed! - 1)).toBeLessThan(1e-6);
      expect(Math.abs(value / check.expected - 1)).toBeLessThan(check.suggested_rel_tol!);
    },
  );

  // Exact values by independent computation; limits .825, .675, .5 in NIST TN 1337, Table 2.
  it.each<[NoiseType, number, number]>([
    ["white_fm", 8, 0.50781],
    ["white_fm", 16, 0.50195],
    ["flicker_fm", 8, 0.67795],
    ["flicker_fm", 16, 0.67543],
    ["random_walk_fm", 8, 0.82697],
    ["random_walk_fm", 16, 0.82549],
  ])("gives the ratio under %s at n = %d: %d", (type, n, expected) => {
    expect(Math.abs(ratio(type, n) - expected)).toBeLessThan(6e-6);
  });

  it("has the Allan variance ratios of IEEE Std 1139: τ⁻¹ for white FM, constant for flicker FM, τ for random walk", () => {
    // Allan variance ∝ covariance at zero over n².
    const allan = (type: NoiseType, n: number) => second(type, n, 0, 1) / (n * n);
    expect(allan("white_pm", 8) / allan("white_pm", 2)).toBeCloseTo(1 / 16, 12);
    expect(allan("white_fm", 8) / allan("white_fm", 2)).toBeCloseTo(1 / 4, 12);
    expect(allan("flicker_fm", 8) / allan("flicker_fm", 2)).toBeCloseTo(1, 12);
    expect(allan("random_walk_fm", 8) / allan("random_walk_fm", 2)).toBeCloseTo(4, 12);
  });

  it("has the flicker PM Allan variance 1.0385 + 3·ln(2πf_h·τ), times two (IEEE Std 1139, Annex B)", () => {
    // s = −Cin: ½·(6s(0) − 8s(τ) + 2s(2τ)) = 4 Cin(z) − Cin(2z) → 3γ − ln 2 + 3 ln z, z = 2πf_h·τ.
    const z = Math.PI * 4000;
    const expected = 3 * 0.5772156649015329 - Math.LN2 + 3 * Math.log(z);
    expect(second("flicker_pm", 4000, 0, 1) / 2).toBeCloseTo(expected, 6);
  });
});

describe("entireCosineIntegral", () => {
  // Ci(1), Ci(10), Ci(20) from Abramowitz and Stegun, Tables 5.1 and 5.2; Cin = γ + ln z − Ci (from memory).
  it.each([
    [1, 0.3374039229009681],
    [10, -0.0454564330044554],
    [20, 0.0444198208453533],
  ])("agrees with the tabulated cosine integral at z = %d", (z, cosineIntegral) => {
    const expected = 0.5772156649015329 + Math.log(z) - cosineIntegral;
    expect(entireCosineIntegral(z)).toBeCloseTo(expected, 8);
  });

  it("is z²/4 for small z, and joins its two series at z = 20", () => {
    expect(entireCosineIntegral(1e-4) / 2.5e-9).toBeCloseTo(1, 8);
    const slope = (1 - Math.cos(20)) / 20;
    const step = entireCosineIntegral(20 + 1e-6) - entireCosineIntegral(20 - 1e-6);
    expect(Math.abs(step - 2e-6 * slope)).toBeLessThan(3e-9);
  });
});
