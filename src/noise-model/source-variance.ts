import type { Levels } from "./levels.ts";

/**
 * Allan variance of the source at some averaging time.
 *
 *   σ_y²(τ) = wfm/τ + c² + q·τ/3
 *
 * Twice it is the variance of the difference between the rates over two runs of length τ, one after the other.
 *
 * @param levels - noise levels
 * @param tau - averaging time; time units, > 0
 * @returns the variance; (phase/time)²
 *
 * Source: IEEE Std 1139, Annex B.
 */
export function sourceVariance({ wfm, ffm, rw }: Levels, tau: number): number {
  return wfm / tau + ffm + (rw * tau) / 3;
}
