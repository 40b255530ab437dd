import { describe, expect, it } from "vitest";
import type { NoiseLevels } from "../../src/noise/noise-levels.ts";
import { frequencyNoiseDensity, rateDensity } from "../../src/noise/spectral-density.ts";

const levels: NoiseLevels = {
  whitePmRms: 0.3,
  h1: 2,
  h0: 3,
  hMinus1: 5,
  hMinus2: 7,
  bandwidthHz: 10,
  flickerLongest: 1e8,
};

describe("spectral densities", () => {
  it("are Σ h_α·f^α (IEEE Std 1139)", () => {
    const h2 = (4 * Math.PI ** 2 * 0.09) / 10;
    expect(rateDensity(levels, 2)).toBeCloseTo(h2 * 4 + 2 * 2 + 3 + 5 / 2 + 7 / 4, 12);
    expect(frequencyNoiseDensity(levels, 2)).toBe(3 + 5 / 2 + 7 / 4);
  });

  it("hold the noises of phase up to the end of the band only", () => {
    expect(rateDensity(levels, 10.001)).toBe(frequencyNoiseDensity(levels, 10.001));
  });

  it("give the square of the rms time error when white PM is integrated over its band", () => {
    const white = { ...levels, h1: 0, h0: 0, hMinus1: 0, hMinus2: 0 };
    let sum = 0;
    for (let i = 0; i < 100; i++) {
      const f = (i + 0.5) / 10;
      sum += rateDensity(white, f) / (2 * Math.PI * f) ** 2 / 10;
    }
    expect(sum).toBeCloseTo(0.09, 12);
  });
});
