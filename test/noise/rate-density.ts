import type { NoiseLevels } from "../../src/noise/index.ts";

/**
 * One-sided S_y(f) = Σ h_α·f^α (IEEE Std 1139), α = −2 … 2, the two of phase up to the end of the band only; 1/Hz.
 */
export function rateDensity(levels: NoiseLevels, f: number): number {
  const { h0, hMinus1, hMinus2, bandwidthHz } = levels;
  // x_rms² = h₂·f_h/(4π²).
  const h2 = (2 * Math.PI * levels.whitePmRms) ** 2 / bandwidthHz;
  const phase = f > bandwidthHz ? 0 : levels.h1 * f + h2 * f ** 2;
  return h0 + hMinus1 / f + hMinus2 / f ** 2 + phase;
}
