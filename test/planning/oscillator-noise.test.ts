import { describe, expect, it } from "vitest";
import type { Weighting } from "../../src/planning/index.ts";
import { estimateVariance } from "../../src/planning/index.ts";
import { frequencyNoise, phaseNoise } from "../../src/theory/index.ts";

const silent = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 5e3,
  flickerLongest: 1e9,
};
const variance = (terms: ReturnType<typeof phaseNoise>, weighting: Weighting) =>
  terms.reduce((sum, { shape }) => sum + estimateVariance(weighting, shape), 0);

describe("frequencyNoise", () => {
  // Dawkins et al. 2007, Rubiola et al. 2016, many stamps in a span T: h0/(2T) by end points and 6/5 of it by a line;
  // the discrete line of 10 stamps 0.1224242 h0/2 at unit spacing.
  it("meets the published variances under white FM", () => {
    const terms = frequencyNoise("reference", { ...silent, h0: 3e-20 });
    const ends = { kind: "line", stamps: 2, spacing: 400 } as const;
    expect(variance(terms, ends) / (3e-20 / 800)).toBeCloseTo(1, 12);
    const ten = { kind: "line", stamps: 10, spacing: 1 } as const;
    expect(variance(terms, ten) / (1.5e-20 * 0.12242424242)).toBeCloseTo(1, 9);
  });

  it("has a mean over T of variance h−1·[ln(Tmax/T) + 3/2 − γ] under flicker FM", () => {
    // Superposition of relaxation processes up to Tmax, 3/2 − γ = 0.922784, computed from the definition.
    const terms = frequencyNoise("time base", { ...silent, hMinus1: 1e-24 });
    for (const span of [10, 1e4]) {
      const ends = { kind: "line", stamps: 2, spacing: span } as const;
      const expected = 1e-24 * (Math.log(1e9 / span) + 0.922784);
      // The last process of the ladder stands within a quarter of a decade of the longest time constant.
      expect(Math.abs(variance(terms, ends) / expected - 1)).toBeLessThan(0.06);
    }
  });

  it("has the mean of a random walk from zero: D·T/3, D = 2π²·h−2", () => {
    const terms = frequencyNoise("time base", { ...silent, hMinus2: 1e-30 });
    const ends = { kind: "line", stamps: 2, spacing: 600 } as const;
    const expected = (2 * Math.PI ** 2 * 1e-30 * 600) / 3;
    expect(variance(terms, ends) / expected).toBeCloseTo(1, 12);
  });
});

describe("phaseNoise", () => {
  it("gives white PM 2·σ²/T² at two ends", () => {
    const terms = phaseNoise("reference", { ...silent, whitePmRms: 2e-9 });
    const ends = { kind: "line", stamps: 2, spacing: 10 } as const;
    expect(variance(terms, ends)).toBeCloseTo((2 * 4e-18) / 100, 30);
  });

  it("gives flicker PM the Allan variance of IEEE Std 1139", () => {
    // σ_y² = h1·(1.038 + 3·ln(2πf_h·τ))/(4π²τ²); the structure function of the same ladder gives it as
    // [4·D(τ) − D(2τ)]/(2τ²), D(τ) = τ²·(variance of the end points' rate over τ).
    const terms = phaseNoise("reference", { ...silent, h1: 1e-20 });
    const structure = (tau: number) =>
      tau * tau * variance(terms, { kind: "line", stamps: 2, spacing: tau });
    for (const tau of [0.1, 10, 1000]) {
      const allan = (4 * structure(tau) - structure(2 * tau)) / (2 * tau * tau);
      const formula =
        (1e-20 * (1.038 + 3 * Math.log(2 * Math.PI * 5e3 * tau))) / (4 * Math.PI ** 2 * tau * tau);
      expect(Math.abs(allan / formula - 1)).toBeLessThan(0.01);
    }
  });
});
