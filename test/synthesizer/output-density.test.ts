import { describe, expect, it } from "vitest";
import type { NoiseLevels } from "../../src/noise/index.ts";
import {
  closedLoopResponse,
  densityAboutReference,
  errorResponse,
  outputDensity,
} from "../../src/stages/synthesizer/index.ts";

const silent: NoiseLevels = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 50,
  flickerLongest: 1e8,
};
const loop = { naturalHz: 1.5, damping: 0.8, comparisonHz: 1e5 };
const quiet = {
  outputHz: 5,
  settingStepHz: 0,
  loop,
  noise: silent,
  phaseDetectorWhite: 0,
  spurs: [],
};

describe("outputDensity", () => {
  it.each([0.01, 1.2, 30])(
    "passes the reference through H and the own oscillator through 1 − H at %s Hz",
    (f) => {
      const noisy = { ...silent, h0: 2, h1: 0.3 };
      // S_x = S_y/(2πf)² (IEEE Std 1139); linear loop (Gardner, Phaselock Techniques).
      const time = (2 + 0.3 * f) / (2 * Math.PI * f) ** 2;
      const reference = outputDensity(quiet, noisy, f);
      const own = outputDensity({ ...quiet, noise: noisy }, silent, f);
      expect(reference / (time * closedLoopResponse(loop, f))).toBeCloseTo(1, 12);
      expect(own / (time * errorResponse(loop, f))).toBeCloseTo(1, 12);
    },
  );

  it("passes detector noise, and white PM as it is sampled, through H", () => {
    const parameters = { ...quiet, phaseDetectorWhite: 3 };
    const got = outputDensity(parameters, { ...silent, whitePmRms: 2 }, 1);
    expect(got / ((9 + 8e-5) * closedLoopResponse(loop, 1))).toBeCloseTo(1, 12);
  });
});

describe("densityAboutReference", () => {
  it.each([0.01, 1.2, 30])(
    "leaves 1 − H of the frequency noise of either oscillator at %s Hz",
    (f) => {
      const noisy = { ...silent, h0: 2, hMinus1: 0.1 };
      const time = ((2 + 0.1 / f) / (2 * Math.PI * f) ** 2) * errorResponse(loop, f);
      expect(densityAboutReference(quiet, noisy, f) / time).toBeCloseTo(1, 12);
      expect(densityAboutReference({ ...quiet, noise: noisy }, silent, f) / time).toBeCloseTo(
        1,
        12,
      );
    },
  );

  it("passes phase noise at the detector through H, as in true time", () => {
    const noisy = { ...silent, whitePmRms: 2, h1: 0.3 };
    const parameters = { ...quiet, phaseDetectorWhite: 3 };
    expect(densityAboutReference(parameters, noisy, 2)).toBe(outputDensity(parameters, noisy, 2));
  });
});
