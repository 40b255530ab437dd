import { describe, expect, it } from "vitest";
import type { NoiseLevels } from "../../src/noise/index.ts";
import type { SynthesizerParameters } from "../../src/stages/synthesizer/index.ts";
import { finestScale, leftOutTerms, loopInputs } from "../../src/stages/synthesizer/index.ts";

const rubidium: NoiseLevels = {
  whitePmRms: 1e-11,
  h1: 0,
  h0: 8e-22,
  hMinus1: 2.9e-26,
  hMinus2: 1.5e-33,
  bandwidthHz: 5e6,
  flickerLongest: 1e8,
};
const free: NoiseLevels = {
  ...rubidium,
  h0: 1.8e-11,
  hMinus1: 1.8e-13,
  hMinus2: 0,
  bandwidthHz: 2.5,
};
const parameters: SynthesizerParameters = {
  outputHz: 5,
  settingStepHz: 0,
  loop: { naturalHz: 1.5, damping: 0.8, comparisonHz: 1e5 },
  noise: free,
  phaseDetectorWhite: 0,
  spurs: [],
};

const decide = (p: SynthesizerParameters, reference: NoiseLevels) =>
  leftOutTerms(p, reference, loopInputs(p, reference, finestScale(0.2, p.loop)));

describe("leftOutTerms", () => {
  it("leaves a quiet reference's frequency noise out of a noisy loop, and says so", () => {
    const kept = decide(parameters, rubidium);
    expect(kept.referenceRate.length).toBe(0);
    const paths = new Set(kept.leftOut.map((term) => term.path));
    expect(paths.has("reference.frequency")).toBe(true);
    for (const { ratio } of kept.leftOut) {
      expect(ratio).toBeLessThanOrEqual(1e-3);
    }
  });

  it("keeps of the own flicker what is near the loop's natural period", () => {
    const kept = decide(parameters, rubidium);
    const ladder = loopInputs(parameters, rubidium, 0.2).ownRate.timeConstants;
    const near = [...ladder.keys()].filter((k) => ladder[k]! > 0.01 && ladder[k]! < 1);
    expect(near.length).toBeGreaterThan(1);
    expect([...kept.ownRate]).toEqual(expect.arrayContaining(near));
  });

  it("keeps a reference as noisy as the loop's own oscillator", () => {
    const flicker = { ...free, h0: 0, flickerLongest: 100 };
    const kept = decide({ ...parameters, noise: flicker }, flicker);
    const all = loopInputs(parameters, flicker, 0.2).referenceRate;
    expect(kept.referenceRate.length).toBeGreaterThan(all.timeConstants.length / 2);
  });

  it("leaves nothing out where there is nothing to hide it", () => {
    const alone = { ...free, h0: 0, flickerLongest: 10 };
    const none = { ...rubidium, h0: 0, hMinus1: 0, hMinus2: 0, whitePmRms: 0 };
    expect(decide({ ...parameters, noise: { ...alone, whitePmRms: 0 } }, none).leftOut).toEqual([]);
  });
});
