import { whitePmLevel } from "./noise-conversions.ts";
import type { NoiseLevels } from "./noise-levels.ts";

/**
 * Spectral density of the frequency noise alone: white, flicker and random-walk FM.
 *
 *   S_y(f) = h₀ + h₋₁/f + h₋₂/f²
 *
 * @param levels - noise levels
 * @param f - Fourier frequency; Hz, > 0
 * @returns one-sided S_y; 1/Hz
 *
 * Source: IEEE Std 1139-2008. Exact case: h₀ alone gives h₀.
 */
export function frequencyNoiseDensity(levels: NoiseLevels, f: number): number {
  return levels.h0 + (levels.hMinus1 + levels.hMinus2 / f) / f;
}

/**
 * Spectral density of fractional frequency, all five noises.
 *
 *   S_y(f) = Σ h_α·f^α, α = −2 … 2, the two of phase up to the end of the band f_h only
 *
 * @param levels - noise levels
 * @param f - Fourier frequency; Hz, > 0
 * @returns one-sided S_y; 1/Hz
 *
 * Source: IEEE Std 1139-2008. Exact case: h₀ alone gives h₀.
 */
export function rateDensity(levels: NoiseLevels, f: number): number {
  const phase =
    f > levels.bandwidthHz
      ? 0
      : (levels.h1 + whitePmLevel(levels.whitePmRms, levels.bandwidthHz) * f) * f;
  return frequencyNoiseDensity(levels, f) + phase;
}
