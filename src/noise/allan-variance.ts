import { flickerPmAllanVariance } from "./noise-conversions.ts";
import type { NoiseLevels } from "./noise-levels.ts";

/**
 * Allan variance of an oscillator by theory, all five noises.
 *
 *   σ_y²(τ) = 3·x_rms²/τ² + h₁·(3γ − ln 2 + 3·ln(2πf_h·τ))/(4π²τ²)
 *           + h₀/(2τ) + 2·ln 2·h₋₁ + (2π²/3)·τ·h₋₂
 *
 * White PM is that of edges with independent errors. A flicker ladder follows its term from
 * 1.2/f_h up to a twenty-fourth of its longest time constant within 1.7 %, the deviation within 1 %.
 *
 * @param levels - noise levels
 * @param tau - averaging time; s, > 0
 * @returns σ_y²(τ); dimensionless
 * @throws RangeError if tau is not above 0, or flicker PM has no band to stand in at tau
 *
 * Source: IEEE Std 1139-2008, Annex B. Exact case: h₀ = 2/Hz alone gives 1/τ.
 */
export function allanVariance(levels: NoiseLevels, tau: number): number {
  if (!(tau > 0)) {
    throw new RangeError(`allanVariance: tau must be > 0 s, got ${tau}`);
  }
  const rms = levels.whitePmRms / tau;
  const flickerPm =
    levels.h1 === 0 ? 0 : flickerPmAllanVariance(levels.h1, levels.bandwidthHz, tau);
  return (
    3 * rms * rms +
    flickerPm +
    levels.h0 / (2 * tau) +
    2 * Math.LN2 * levels.hMinus1 +
    ((2 * Math.PI * Math.PI) / 3) * tau * levels.hMinus2
  );
}
