import { log } from "../numeric/index.ts";

const pi = Math.PI;
/** 3γ − ln 2 = 1.0384998: the constant of flicker PM, often rounded to 1.038. */
export const flickerPmConstant = 3 * 0.5772156649015329 - Math.LN2;

/** Flicker PM: the bracket 3γ − ln 2 + 3·ln(2πf_h·τ). */
function flickerPmBracket(bandwidthHz: number, tau: number, name: string): number {
  const bracket = flickerPmConstant + 3 * log(2 * pi * bandwidthHz * tau);
  if (!(bracket > 0)) {
    throw new RangeError(
      `${name}: bandwidthHz must be > 0.113/tau for flicker PM at tau = ${tau} s, got ${bandwidthHz}`,
    );
  }
  return bracket;
}

/**
 * White FM level from an Allan deviation at 1 s.
 *
 *   σ_y² = h₀/(2τ)
 *
 * @param deviation - σ_y(1 s); dimensionless, >= 0
 * @returns h₀; 1/Hz
 *
 * Source: IEEE Std 1139-2008, Annex B. Exact case: 1 gives 2.
 */
export function whiteFmLevel(deviation: number): number {
  return 2 * deviation * deviation;
}

/**
 * Flicker FM level from the floor of the Allan deviation.
 *
 *   σ_y² = 2·ln 2·h₋₁
 *
 * @param floor - σ_y at any τ; dimensionless, >= 0
 * @returns h₋₁; dimensionless
 *
 * Source: IEEE Std 1139-2008, Annex B. Exact case: 1 gives 1/(2·ln 2).
 */
export function flickerFmLevel(floor: number): number {
  return (floor * floor) / (2 * Math.LN2);
}

/**
 * Random-walk FM level from an Allan deviation at 1 s.
 *
 *   σ_y² = (2π²/3)·τ·h₋₂
 *
 * @param deviation - σ_y(1 s); dimensionless, >= 0
 * @returns h₋₂; Hz
 *
 * Source: IEEE Std 1139-2008, Annex B. Exact case: 1 gives 3/(2π²).
 */
export function randomWalkFmLevel(deviation: number): number {
  return (3 * deviation * deviation) / (2 * pi * pi);
}

/**
 * Flicker PM level from an Allan deviation at 1 s.
 *
 *   σ_y² = h₁·(3γ − ln 2 + 3·ln(2πf_h·τ))/(4π²τ²)
 *
 * @param deviation - σ_y(1 s); dimensionless, >= 0
 * @param bandwidthHz - upper end of the noise band f_h; Hz, > 0.113
 * @returns h₁; s²
 * @throws RangeError where the band ends so low that the formula gives no positive variance
 *
 * Source: IEEE Std 1139-2008, Annex B (1.038 there). Exact case: 0 gives 0.
 */
export function flickerPmLevel(deviation: number, bandwidthHz: number): number {
  return (4 * pi * pi * deviation * deviation) / flickerPmBracket(bandwidthHz, 1, "flickerPmLevel");
}

/**
 * Rms time error of an edge from a white PM level.
 *
 *   x_rms² = h₂·f_h/(4π²)
 *
 * @param h2 - level of white PM; s³, >= 0
 * @param bandwidthHz - upper end of the noise band f_h; Hz, > 0
 * @returns rms time error; s
 *
 * Source: IEEE Std 1139-2008: S_x = S_y/(2πf)², integrated to f_h. Exact case: 0 gives 0.
 */
export function whitePmRms(h2: number, bandwidthHz: number): number {
  return Math.sqrt(h2 * bandwidthHz) / (2 * pi);
}

/**
 * Allan variance of flicker PM.
 *
 *   h₁·(3γ − ln 2 + 3·ln(2πf_h·τ))/(4π²τ²)
 *
 * @param h1 - level; s², >= 0
 * @param bandwidthHz - f_h; Hz, > 0.113/τ
 * @param tau - averaging time; s, > 0
 * @returns σ_y²(τ); dimensionless
 * @throws RangeError where the formula gives no positive variance
 *
 * Source: IEEE Std 1139-2008, Annex B; holds for f_h·τ >> 1. Exact case: inverse of `flickerPmLevel` at 1 s.
 */
export function flickerPmAllanVariance(h1: number, bandwidthHz: number, tau: number): number {
  const bracket = flickerPmBracket(bandwidthHz, tau, "flickerPmAllanVariance");
  return (h1 * bracket) / (4 * pi * pi * tau * tau);
}
