import { describe, expect, it } from "vitest";
import type { NoiseLevels } from "../../src/noise/index.ts";
import type { SynthesizerParameters } from "../../src/stages/synthesizer/index.ts";
import { outputDensity, rmsJitter } from "../../src/stages/synthesizer/index.ts";

const silent: NoiseLevels = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 1e4,
  flickerLongest: 1e8,
};
const quiet: SynthesizerParameters = {
  outputHz: 5,
  settingStepHz: 0,
  loop: { naturalHz: 1.5, damping: 0.8, comparisonHz: 1e5 },
  noise: silent,
  phaseDetectorWhite: 0,
  spurs: [],
};
const natural = 2 * Math.PI * 1.5;

/** ∫ S_x df by the midpoint rule over log f, 1e-6 Hz to the end of the band. */
function byQuadrature(parameters: SynthesizerParameters, reference: NoiseLevels) {
  const span = Math.log(1e4 / 1e-6);
  let sum = 0;
  for (let i = 0; i < 20000; i++) {
    const f = 1e-6 * Math.exp(((i + 0.5) / 20000) * span);
    sum += (outputDensity(parameters, reference, f) * f * span) / 20000;
  }
  return sum;
}

describe("rmsJitter", () => {
  it("is √(q/(4ζω)) for white FM, q = h0/2 (Gardner, Phaselock Techniques, from memory)", () => {
    const { oscillator, total } = rmsJitter({ ...quiet, noise: { ...silent, h0: 3 } }, silent);
    expect(oscillator).toBeCloseTo(Math.sqrt(1.5 / (4 * 0.8 * natural)), 12);
    expect(total).toBe(oscillator);
  });

  it.each([
    ["white FM", { h0: 2e-12 }, 1e-3],
    // A flicker ladder ripples by 0.1 %.
    ["flicker FM", { hMinus1: 1e-12 }, 2e-3],
    ["random-walk FM", { hMinus2: 1e-12 }, 1e-3],
    // Its spectrum ends at the band in theory, in a ladder 1/2π of the time constants before.
    ["flicker PM", { h1: 1e-14 }, 2e-2],
  ])(
    "of %s of the oscillator is the integral of its spectrum through 1 − H",
    (_, levels, within) => {
      const parameters = { ...quiet, noise: { ...silent, ...levels } };
      const square = rmsJitter(parameters, silent).oscillator ** 2;
      expect(Math.abs(square / byQuadrature(parameters, silent) - 1)).toBeLessThan(within);
    },
  );

  it("of phase noise before the detector is its density times B_L (Gardner, from memory)", () => {
    const bandwidth = (natural / 2) * (0.8 + 1 / 3.2);
    const detector = rmsJitter({ ...quiet, phaseDetectorWhite: 2e-9 }, silent).phaseDetector;
    expect(detector / Math.sqrt(4e-18 * bandwidth)).toBeCloseTo(1, 12);
    const pm = rmsJitter(quiet, { ...silent, whitePmRms: 1e-9 }).detectedPhase;
    expect(pm / Math.sqrt(2e-18 * 1e-5 * bandwidth)).toBeCloseTo(1, 12);
  });

  it("of a spur is A/√2", () => {
    const spurs = [{ frequencyHz: 3, timeAmplitude: 5e-9 }];
    expect(rmsJitter({ ...quiet, spurs }, silent).total / (5e-9 / Math.SQRT2)).toBeCloseTo(1, 12);
  });

  it("adds causes by their squares", () => {
    const noisy = { ...silent, h0: 1e-20, hMinus1: 1e-20, h1: 1e-20, whitePmRms: 1e-10 };
    const parts = rmsJitter({ ...quiet, noise: noisy, phaseDetectorWhite: 1e-10 }, noisy);
    const { oscillator, phaseDetector, detectedPhase, referenceFrequency, spurs } = parts;
    const sum = Math.hypot(oscillator, phaseDetector, detectedPhase, referenceFrequency, spurs);
    expect(parts.total / sum).toBeCloseTo(1, 12);
    expect(Math.min(oscillator, phaseDetector, detectedPhase, referenceFrequency)).toBeGreaterThan(
      0,
    );
  });
});
