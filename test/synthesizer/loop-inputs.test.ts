import { describe, expect, it } from "vitest";
import type { NoiseLevels } from "../../src/noise/index.ts";
import { loopEntries, loopInputs } from "../../src/stages/synthesizer/index.ts";

const silent: NoiseLevels = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 5e6,
  flickerLongest: 1e8,
};
const quiet = {
  outputHz: 5,
  settingStepHz: 0,
  loop: { naturalHz: 1.5, damping: 0.8, comparisonHz: 1e5 },
  noise: silent,
  phaseDetectorWhite: 0,
  spurs: [],
};

describe("loopInputs", () => {
  it("sees white PM sampled at f_c as white time noise 2σ²/f_c (sampling theorem)", () => {
    const inputs = loopInputs(quiet, { ...silent, whitePmRms: 3 }, 0.2);
    expect(inputs.sampledDensity).toBeCloseTo(18e-5, 18);
    const both = { ...quiet, noise: { ...silent, whitePmRms: 4 }, phaseDetectorWhite: 2 };
    const more = loopInputs(both, { ...silent, whitePmRms: 3 }, 0.2);
    expect(more.sampledDensity).toBeCloseTo(50e-5, 17);
    expect(more.detectorDensity).toBe(4);
  });

  it("folds fast flicker PM: between 4vT of slow and 2v/f_c of fast sampling, by the sum over the aliases", () => {
    const { sampledDensity, referencePhase } = loopInputs(quiet, { ...silent, h1: 2 }, 0.2);
    // Folded spectrum at 0 Hz: Σ over m of 4vT/(1 + (2πm·f_c·T)²), one-sided.
    let folded = 0;
    for (const time of referencePhase.fastTimes) {
      for (let m = -20000; m <= 20000; m++) {
        folded += (4 * referencePhase.variance * time) / (1 + (2 * Math.PI * m * 1e5 * time) ** 2);
      }
    }
    expect(referencePhase.fastTimes.length).toBeGreaterThan(4);
    expect(Math.abs(sampledDensity / folded - 1)).toBeLessThan(2e-4);
  });

  it("takes the reference as closely as it is looked at", () => {
    const levels = { ...silent, hMinus1: 1 };
    const both = { ...quiet, noise: levels };
    const inputs = loopInputs(both, levels, 0.2, 1e-3);
    expect(inputs.referenceRate.timeConstants[0]!).toBeLessThan(1e-5);
    expect(inputs.ownRate.timeConstants[0]!).toBeGreaterThan(1e-4);
  });

  it("throws RangeError naming comparisonHz", () => {
    const never = { ...quiet, loop: { ...quiet.loop, comparisonHz: 0 } };
    expect(() => loopInputs(never, silent, 1)).toThrow(/comparisonHz must be > 0 Hz, got 0/);
  });
});

describe("loopEntries", () => {
  it("let phase noise of reference and output enter the detector with opposite signs", () => {
    const { referencePhase, ownPhase } = loopEntries({ proportional: 3, integral: 5 });
    expect(referencePhase).toEqual({ onError: -3, onIntegrator: 5 });
    expect(ownPhase).toEqual({ onError: 3, onIntegrator: -5 });
  });
});
