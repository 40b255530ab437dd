import type { NoiseLevels } from "./noise-levels.ts";

/**
 * Spectral density of the frequency noise alone: white, flicker and random-walk FM, flicker up to the end of its band.
 *
 *   S_y(f) = h₀ + h₋₁/f + h₋₂/f²,  without h₋₁ above f_h
 *
 * @param levels - noise levels
 * @param f - Fourier frequency; Hz, > 0
 * @returns one-sided S_y; 1/Hz
 *
 * Source: IEEE Std 1139-2008. Exact case: h₀ alone gives h₀.
 */
export function frequencyNoiseDensity(levels: NoiseLevels, f: number): number {
  const flicker = f > levels.bandwidthHz ? 0 : levels.hMinus1;
  return levels.h0 + (flicker + levels.hMinus2 / f) / f;
}
