import { describe, expect, it } from "vitest";
import type { Weighting } from "../../src/planning/index.ts";
import { estimateVariance } from "../../src/planning/index.ts";
import type { NoiseShape } from "../../src/theory/index.ts";
import { autocorrelationAt, type Decay } from "../../src/theory/index.ts";
import { stampsOf } from "./stamps-of.ts";

const decay = (re: number, im: number, poleRe: number, poleIm: number): Decay => ({
  coefficient: { re, im },
  pole: { re: poleRe, im: poleIm },
});

/** Σ_j Σ_k w_j·w_k·C(t_j, t_k), term by term. */
function covarianceSum(weighting: Weighting, covariance: (a: number, b: number) => number): number {
  const { times, weights } = stampsOf(weighting);
  let sum = 0;
  for (let j = 0; j < times.length; j++) {
    for (let k = 0; k < times.length; k++) {
      sum += weights[j]! * weights[k]! * covariance(times[j]!, times[k]!);
    }
  }
  return sum;
}

const small: Weighting[] = [
  { kind: "line", stamps: 2, spacing: 2.5 },
  { kind: "line", stamps: 3, spacing: 0.7 },
  { kind: "line", stamps: 300, spacing: 0.2 },
  { kind: "gates", readings: 1, gate: 2, spacing: 2 },
  { kind: "gates", readings: 60, gate: 2, spacing: 2.9 },
  { kind: "gates", readings: 60, gate: 0.3, spacing: 0.3 },
];

const correlated: [string, readonly Decay[]][] = [
  ["a fast decay", [decay(3, 0, -40, 0)]],
  ["a decay as long as the run", [decay(3, 0, -0.02, 0)]],
  ["a damped oscillation", [decay(2, 0.7, -0.9, 1.3)]],
  ["decays of every length", [decay(1, 0, -3, 0), decay(1, 0, -0.3, 0), decay(2, 0, -1e-3, 0)]],
];

describe("estimateVariance", () => {
  it.each(correlated)("is the covariance sum for %s", (_, decays) => {
    for (const weighting of small) {
      const brute = covarianceSum(weighting, (a, b) => autocorrelationAt(decays, a - b));
      expect(estimateVariance(weighting, { type: "correlated", decays }) / brute).toBeCloseTo(1, 7);
    }
  });

  it.each([0.01, 1, 300])("is the covariance sum for relaxing frequency, T = %d s", (time) => {
    // Cov of ∫y: v·T²·[ (a + b − |a − b|)/T + e^{−a/T} + e^{−b/T} − 1 − e^{−|a−b|/T} ], y stationary
    // (Gillespie, Phys. Rev. E 54, 2084, 1996).
    const covariance = (a: number, b: number) => {
      const apart = Math.abs(a - b);
      const decays = Math.exp(-a / time) + Math.exp(-b / time) - 1 - Math.exp(-apart / time);
      return 5 * time * time * ((a + b - apart) / time + decays);
    };
    const shape: NoiseShape = {
      type: "relaxing_fm",
      variance: 5,
      timeConstants: Float64Array.of(time),
    };
    for (const weighting of small) {
      const brute = covarianceSum(weighting, covariance);
      expect(estimateVariance(weighting, shape) / brute).toBeCloseTo(1, 6);
    }
  });

  it("is the covariance sum for white and random-walk frequency noise", () => {
    for (const weighting of small) {
      // E[x(a)·x(b)] = q·min(a, b); q·(m²/2)·(M − m/3) for the integral of a random walk, m the smaller.
      const white = covarianceSum(weighting, (a, b) => 1.5 * Math.min(a, b));
      expect(estimateVariance(weighting, { type: "white_fm", h0: 3 }) / white).toBeCloseTo(1, 9);
      const walk = covarianceSum(weighting, (a, b) => {
        const m = Math.min(a, b);
        return 2 * ((m * m) / 2) * (Math.max(a, b) - m / 3);
      });
      const shape: NoiseShape = { type: "random_walk_fm", diffusion: 2 };
      expect(estimateVariance(weighting, shape) / walk).toBeCloseTo(1, 8);
    }
  });

  it("goes over into white PM for a decay far shorter than the stamps are apart", () => {
    const decays = [decay(4, 0, -1e3, 0)];
    for (const stamps of [2, 100, 1e5, 1e9]) {
      const weighting: Weighting = { kind: "line", stamps, spacing: 1 };
      const white = estimateVariance(weighting, { type: "white", variance: 4 });
      expect(estimateVariance(weighting, { type: "correlated", decays }) / white).toBeCloseTo(1, 9);
    }
  });

  it("goes over into white FM for relaxing frequency far shorter than the run, in long sums", () => {
    // Two-sided density of the process at f = 0: 2vT, one-sided h0 = 4vT.
    const shape: NoiseShape = {
      type: "relaxing_fm",
      variance: 1,
      timeConstants: Float64Array.of(1),
    };
    for (const stamps of [1e6, 1e9]) {
      const weighting: Weighting = { kind: "line", stamps, spacing: 1 };
      const white = estimateVariance(weighting, { type: "white_fm", h0: 4 });
      expect(estimateVariance(weighting, shape) / white).toBeCloseTo(1, 5);
    }
  });

  it("adds long sums in blocks as exactly as term by term", () => {
    // Over 513 lags and more blocks are used: against the same sum written out.
    const decays = [decay(1, 0, -1 / 700, 0), decay(1, 0, -1 / 9000, 0)];
    const shape: NoiseShape = { type: "correlated", decays };
    const weighting: Weighting = { kind: "line", stamps: 3000, spacing: 1 };
    const brute = covarianceSum(weighting, (a, b) => autocorrelationAt(decays, a - b));
    expect(estimateVariance(weighting, shape) / brute).toBeCloseTo(1, 5);
  });

  it("is the covariance sum for a loop that rings through a long run", () => {
    // White FM behind a loop of ω = 0.3/s and ζ = 0.02: R(τ) ∝ e^{−ζωτ}·(cos ω'τ − ζ/√(1 − ζ²)·sin ω'τ), ω' =
    // ω·√(1 − ζ²) (Gardner, Phaselock Techniques, by its spectrum). Against the definition, term by term.
    const [omega, damping] = [0.3, 0.02];
    const root = Math.sqrt(1 - damping * damping);
    const decays = [decay(1, damping / root, -damping * omega, omega * root)];
    for (const stamps of [1100, 2000]) {
      const weighting: Weighting = { kind: "line", stamps, spacing: 1 };
      const brute = covarianceSum(weighting, (a, b) => autocorrelationAt(decays, a - b));
      const found = estimateVariance(weighting, { type: "correlated", decays });
      expect(found / brute).toBeCloseTo(1, 7);
    }
  });

  it("averages a line over its phase", () => {
    const lines = [{ frequency: 0.37, variance: 2 }];
    const shape: NoiseShape = { type: "lines", lines };
    for (const weighting of small) {
      const brute = covarianceSum(weighting, (a, b) => 2 * Math.cos(2 * Math.PI * 0.37 * (a - b)));
      expect(estimateVariance(weighting, shape) / brute).toBeCloseTo(1, 7);
      expect(estimateVariance(weighting, shape, true)).toBeGreaterThanOrEqual(brute * (1 - 1e-9));
    }
  });
});
