import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import { BurstDetector, driveMargin, MissProbability } from "../../src/stages/receiver/index.ts";
import { receiver, tone } from "./samples.ts";

/** Share of missed bursts in a simulation (the detector is held to small steps in its own test). */
function missedShare(amplitude: number, relative: number, n: number): number {
  const detector = new BurstDetector(receiver, tone, new RandomStream("missed", "receiver"));
  const drive = new RandomStream("missed", "drive");
  let missed = 0;
  for (let i = 0; i < n; i++) {
    detector.begin();
    const drawn = amplitude * (1 + relative * drive.normal());
    if (Number.isNaN(detector.detect(drive.uniform(), drawn))) missed++;
  }
  return missed / n;
}

describe("MissProbability", () => {
  const misses = new MissProbability(receiver, tone, false);

  it.each([
    [7, 0.02],
    [7.3, 0.02],
    [7.6, 0.05],
    [7, 0],
    [7.2, 0],
  ])("at %f V with amplitude noise %f is the share a simulation misses", (amplitude, relative) => {
    const n = 20000;
    const expected = misses.at(amplitude, relative);
    const share = missedShare(amplitude, relative, n);
    // 4 σ of a binomial share, and 10 % of interpolation.
    expect(Math.abs(share - expected)).toBeLessThan(4 * Math.sqrt(expected / n) + 0.1 * expected);
  });

  it("falls as the amplitude rises, far into the tail, and below its simple bound", () => {
    let before = 1;
    for (const amplitude of [6, 6.5, 7, 7.5, 8, 8.5, 9]) {
      const p = misses.at(amplitude, 0.02);
      expect(p).toBeLessThan(before);
      expect(p).toBeLessThanOrEqual(misses.bound(amplitude, 0.02) * 1.1 + 1e-300);
      before = p;
    }
    expect(before).toBeLessThan(1e-12);
  });

  it("without noise is 0 or 1 about the amplitude whose charge just reaches", () => {
    const quiet = new MissProbability({ ...receiver, noiseV: 0 }, tone, true);
    expect(quiet.at(quiet.justReaching * 1.0001, 0)).toBe(0);
    expect(quiet.at(quiet.justReaching * 0.9999, 0)).toBe(1);
  });
});

describe("driveMargin", () => {
  it("without any noise tells when the charge just reaches: A·κ = θ", () => {
    const still = { ...tone, amplitudeNoise: 0, carrierLock: "locked" } as const;
    const quiet = { ...receiver, noiseV: 0 };
    const margin = driveMargin(quiet, still);
    // Six time constants of a rectified sine with its ripple: κ ≈ 2/π·(1 − e⁻⁶) + half the ripple.
    const reach = (2 / Math.PI) * (1 - Math.exp(-6));
    expect(Math.abs(margin.amplitudeRatio / (4.5 / (12 * reach)) - 1)).toBeLessThan(0.01);
    expect(Math.abs(margin.thresholdRatio * margin.amplitudeRatio - 1)).toBeLessThan(2e-3);
  });

  it("leads to a burst in a million either way", () => {
    const free = { ...tone, carrierLock: "free" } as const;
    const margin = driveMargin(receiver, free);
    const fallen = new MissProbability(receiver, tone, false).at(12 * margin.amplitudeRatio, 0.02);
    const risen = new MissProbability(
      { ...receiver, thresholdV: 4.5 * margin.thresholdRatio },
      tone,
      false,
    ).at(12, 0.02);
    expect(fallen).toBeGreaterThan(0.9e-6);
    expect(fallen).toBeLessThan(1.1e-6);
    expect(risen).toBeGreaterThan(0.9e-6);
    expect(risen).toBeLessThan(1.1e-6);
  });
});

describe("MissProbability.bound", () => {
  it("lets noise without a leak grow as √(2t/τ) to the end of the burst", () => {
    // 100 half waves of 1 V, 2/π each on the average: a charge of (2/π)·5 V, and 0.1·√10 V rms of noise.
    const burst = 0.05;
    const timeConstant = 0.01;
    const noiseV = 0.1;
    const thresholdV = (2 / Math.PI) * 5 - 2 * noiseV * Math.sqrt((2 * burst) / timeConstant);
    const set = { ...receiver, leak: false, timeConstant, noiseV, thresholdV };
    const sent = { ...tone, carrierHz: 1000, burst, amplitudeV: 1, amplitudeNoise: 0 };
    // Two deviations below: 2.275 % (Abramowitz & Stegun, Table 26.1).
    expect(new MissProbability(set, sent, true).bound(1, 0)).toBeCloseTo(0.02275, 5);
  });
});
