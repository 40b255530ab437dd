import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import { burstEnvelope } from "../../src/stages/drive/index.ts";
import { BurstDetector, DelayLaw, driveMargin } from "../../src/stages/receiver/index.ts";
import { receiver, tone } from "./samples.ts";

const once = Number.POSITIVE_INFINITY;

describe("missProbability", () => {
  it.each([
    [7, 0.02],
    [7.3, 0.02],
    [7.6, 0.05],
    [7, 0],
    [7.2, 0],
  ])("at %f V with amplitude noise %f is the share a simulation misses", (amplitudeV, relative) => {
    const sent = { ...tone, amplitudeV, amplitudeNoise: relative };
    // The detector is held to small steps in its own test.
    const detector = new BurstDetector(receiver, sent, new RandomStream("missed", "receiver"));
    const drive = new RandomStream("missed", "drive");
    const n = 20000;
    let missed = 0;
    for (let i = 0; i < n; i++) {
      detector.begin();
      const drawn = amplitudeV * (1 + relative * drive.normal());
      if (Number.isNaN(detector.detect(drive.uniform(), drawn))) missed++;
    }
    const expected = new DelayLaw(receiver, sent, once).missProbability;
    // 4 σ of a binomial share, and 5 % of interpolation.
    expect(Math.abs(missed / n - expected)).toBeLessThan(
      4 * Math.sqrt(expected / n) + 0.05 * expected,
    );
  });

  it("falls as the amplitude rises, far into the tail", () => {
    let before = 1;
    for (const amplitudeV of [6, 6.5, 7, 7.5, 8, 8.5, 9]) {
      const p = new DelayLaw(receiver, { ...tone, amplitudeV }, once).missProbability;
      expect(p).toBeLessThan(before);
      before = p;
    }
    expect(before).toBeLessThan(1e-12);
  });

  it("lets noise without a leak grow as √(2t/τ) to the end of the burst", () => {
    // 100 half waves of 1 V, 2/π each on the average: a charge of (2/π)·5 V, and 0.1·√10 V rms of noise. It has never
    // been above if it ends below and was not before: 1 − 2·Φ(−x) for a path without drift, and less than Φ(−2) with.
    const timeConstant = 0.01;
    const noiseV = 0.1;
    const thresholdV = (2 / Math.PI) * 5 - 2 * noiseV * Math.sqrt(10);
    const set = { ...receiver, leak: false, timeConstant, noiseV, thresholdV };
    const envelope = burstEnvelope(0.05, 0);
    const sent = { ...tone, carrierHz: 1000, envelope, amplitudeV: 1, amplitudeNoise: 0 };
    const { missProbability } = new DelayLaw(set, { ...sent, carrierLock: "locked" }, once);
    // Inverse Gaussian, A. Wald 1947: 1 − F(t) = Φ(z₁) − e^(2aμ/σ²)·Φ(z₂) with a = θ, μt = 10/π, σ²t = 0.1: the first is
    // Φ(−2) = 0.022750 (Abramowitz & Stegun, table 26.1), the second e^161.8·Φ(−18.12) = 0.01037, by high precision.
    const a = thresholdV;
    const shift = 10 / Math.PI;
    const z2 = (a + shift) / Math.sqrt(0.1);
    const tail = Math.exp((2 * a * shift) / 0.1 - (z2 * z2) / 2) / (z2 * Math.sqrt(2 * Math.PI));
    const series = 1 - 1 / z2 ** 2 + 3 / z2 ** 4 - 15 / z2 ** 6;
    expect(Math.abs(missProbability / (0.02275013 - tail * series) - 1)).toBeLessThan(0.05);
  });
});

describe("driveMargin", () => {
  it("without any noise tells when the charge just reaches: A·κ = θ", () => {
    const still = { ...tone, amplitudeNoise: 0, carrierLock: "locked" } as const;
    const quiet = { ...receiver, noiseV: 0 };
    const margin = driveMargin(quiet, still, once);
    // Six time constants of a rectified sine with its ripple: κ ≈ 2/π·(1 − e⁻⁶) + half the ripple.
    const reach = (2 / Math.PI) * (1 - Math.exp(-6));
    expect(Math.abs(margin.amplitudeRatio / (4.5 / (12 * reach)) - 1)).toBeLessThan(0.01);
    expect(Math.abs(margin.thresholdRatio * margin.amplitudeRatio - 1)).toBeLessThan(2e-3);
  });

  it.each([
    ["after a long silence", {}, {}, once],
    [
      "with charge left, and a slow rise",
      { timeConstant: 0.05 },
      { envelope: burstEnvelope(0.06, 0.02) },
      1 / 6,
    ],
  ])("%s: leads to a burst in a million either way", (_, change, toneChange, period) => {
    const set = { ...receiver, ...change };
    const sent = { ...tone, ...toneChange };
    const { amplitudeRatio, thresholdRatio } = driveMargin(set, sent, period);
    const fallen = { ...sent, amplitudeV: 12 * amplitudeRatio };
    const risen = { ...set, thresholdV: 4.5 * thresholdRatio };
    for (const law of [new DelayLaw(set, fallen, period), new DelayLaw(risen, sent, period)]) {
      expect(law.missProbability).toBeGreaterThan(0.9e-6);
      expect(law.missProbability).toBeLessThan(1.1e-6);
    }
  });
});
