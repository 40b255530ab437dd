import { describe, expect, it } from "vitest";
import type { NoiseLevels } from "../../src/noise/index.ts";
import { frequencyNoiseDensity } from "../../src/noise/index.ts";

const levels: NoiseLevels = {
  whitePmRms: 0.3,
  h1: 2,
  h0: 3,
  hMinus1: 5,
  hMinus2: 7,
  bandwidthHz: 10,
  flickerLongest: 1e8,
};

describe("frequencyNoiseDensity", () => {
  it("is h₀ + h₋₁/f + h₋₂/f² (IEEE Std 1139), whatever the noise of phase", () => {
    expect(frequencyNoiseDensity(levels, 2)).toBe(3 + 5 / 2 + 7 / 4);
  });
});
