import { describe, expect, it } from "vitest";
import { RandomStream } from "../../../src/numeric/index.ts";
import { detectionTheory, type TheoryTone } from "../../../src/stages/receiver/index.ts";
import { PlainDetector } from "../../receiver/plain-detector.ts";
import { meanAndVariance, receiver, siegertMean, tone } from "../../receiver/samples.ts";

const free: TheoryTone = { ...tone, carrierLock: "free" };

describe("detectionTheory", () => {
  it("agrees with Wald: mean a/μ, variance aσ²/μ³, without leak at a high carrier", () => {
    // a = μ = 1, σ = 0.5 (μ = 2A/(πτ), σ² = 2·noise_v²/τ): mean 1, variance 0.25. A. Wald 1947.
    const theory = detectionTheory(
      { ...receiver, leak: false, timeConstant: 1, thresholdV: 1, noiseV: 0.5 / Math.SQRT2 },
      { ...free, carrierHz: 2000, burst: 20, amplitudeV: Math.PI / 2, amplitudeNoise: 0 },
    );
    expect(theory.meanDelay).toBeCloseTo(1, 2);
    expect(theory.rmsDelay).toBeCloseTo(0.5, 2);
  });

  it("agrees with Siegert 1951, averaged over the start, with leak at a high carrier", () => {
    const noise = 0.25;
    const level = 1.2;
    const theory = detectionTheory(
      { ...receiver, timeConstant: 1, thresholdV: 1, noiseV: noise },
      { ...free, carrierHz: 2000, burst: 50, amplitudeV: (Math.PI * level) / 2, amplitudeNoise: 0 },
    );
    let weight = 0;
    let expected = 0;
    for (let z = -6; z < 1 / noise; z += 0.1) {
      const w = Math.exp(-0.5 * z * z);
      weight += w;
      expected += w * siegertMean(z * noise, 1, level, 1, noise * Math.SQRT2);
    }
    expect(Math.abs(theory.meanDelay / (expected / weight) - 1)).toBeLessThan(2e-3);
  });

  it("counts bursts that begin above the threshold among those without a step", () => {
    // Noise beyond 3.125 σ, in 8.890e-4 of all bursts (normal distribution, Abramowitz & Stegun, table 26.1), blocks a
    // burst so strong that none is missed.
    const strong = { ...free, amplitudeV: 60, amplitudeNoise: 0 };
    const theory = detectionTheory({ ...receiver, thresholdV: 2.5, noiseV: 0.8 }, strong);
    expect(theory.missProbability).toBeCloseTo(8.89e-4, 6);
  });

  it.each([
    ["full wave", {}, {}],
    ["half wave", { rectifier: "half" }, { amplitudeV: 18 }],
    ["no leak", { leak: false }, {}],
    ["high noise", { noiseV: 0.6 }, {}],
    ["low noise", { noiseV: 0.01 }, {}],
    ["weak drive", {}, { amplitudeV: 7 }],
    // A burst is a sixteenth of a turn: at some phases it brings nothing, at others it is quick.
    ["slow tone", {}, { carrierHz: 1.01 }, 30_000],
    ["slow tone, no leak", { leak: false }, { carrierHz: 1.01 }, 30_000],
  ] as const)(
    "%s: mean, spread and misses of small steps of the circuit equation",
    (name, change, toneChange, stepsPerPeriod: number = 150) => {
      const r = { ...receiver, ...change };
      const t = { ...free, ...toneChange };
      const n = 1000;
      const plain = new PlainDetector(r, t, name, stepsPerPeriod);
      const drive = new RandomStream(name, "drive");
      const sample: number[] = [];
      for (let i = 0; i < n; i++) {
        plain.begin();
        const amplitude = t.amplitudeV * (1 + t.amplitudeNoise * drive.normal());
        const delay = plain.detect(drive.uniform(), amplitude);
        if (!Number.isNaN(delay)) sample.push(delay);
      }
      const theory = detectionTheory(r, t);
      const { mean, variance } = meanAndVariance(sample);
      // 4 σ; spreads with the variance of a distribution no flatter than an exponential's (kurtosis 9).
      expect(Math.abs(mean - theory.meanDelay)).toBeLessThan(
        4 * Math.sqrt(variance / n) + 1e-3 * mean,
      );
      expect(Math.abs(Math.sqrt(variance) / theory.rmsDelay - 1)).toBeLessThan(
        4 * Math.sqrt(2 / n),
      );
      const missed = theory.missProbability;
      expect(Math.abs(1 - sample.length / n - missed)).toBeLessThan(
        4 * Math.sqrt((missed * (1 - missed) + 1 / n) / n),
      );
    },
  );

  it("without noise is the average of the closed form over phases: a uniform share of a period", () => {
    // A fast tone and no noise: the delay is the charge law's, within a half cycle.
    const theory = detectionTheory(
      { ...receiver, noiseV: 0 },
      { ...free, carrierHz: 50000, amplitudeNoise: 0 },
    );
    const law = -0.01 * Math.log(1 - (4.5 * Math.PI) / 24);
    expect(Math.abs(theory.meanDelay - law)).toBeLessThan(1e-5);
    expect(theory.rmsDelay).toBeLessThan(1e-5);
    expect(theory.missProbability).toBe(0);
  });

  it("gives the mean at each start phase: small steps at four of them", () => {
    const quiet = { ...receiver, noiseV: 0.02 };
    const still = { ...free, amplitudeNoise: 0 };
    const theory = detectionTheory(quiet, still);
    for (const k of [0, 9, 22, 50]) {
      const plain = new PlainDetector(quiet, still, `phase ${k}`, 300);
      const sample = Array.from({ length: 150 }, () => {
        plain.begin();
        return plain.detect(k / 64, 12);
      });
      const { mean, variance } = meanAndVariance(sample);
      expect(Math.abs(mean - theory.meanAt[k]!)).toBeLessThan(4 * Math.sqrt(variance / 150) + 2e-6);
    }
  });

  it("looks at phase zero alone where the tone is locked", () => {
    const locked = detectionTheory(receiver, { ...free, carrierLock: "locked" });
    expect(locked.meanDelay).toBe(locked.meanAt[0]);
    expect(locked.rmsDelay).toBe(Math.sqrt(locked.varianceAt[0]!));
  });
});
