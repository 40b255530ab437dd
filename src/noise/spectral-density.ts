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
