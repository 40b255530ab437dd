import type { GridNode } from "./level-grid.ts";

/**
 * Variance of the difference between the best fit of this run and that of another one as long, right after it.
 *
 *   2·(u² + σ_y²(T)),  σ_y²(T) = wfm/T + c² + q·T/3
 *
 * u² being the variance of the fit about the rate over its own run.
 *
 * @param node - levels and fit
 * @param duration - length of a run; time units
 * @returns the variance over σ²; (phase/time)²
 *
 * Source: definition of the Allan variance (IEEE Std 1139).
 */
export function runToRunVariance({ levels, fit }: GridNode, duration: number): number {
  const { wfm, ffm, rw } = levels;
  return 2 * (fit.overRun.variance + wfm / duration + ffm + (rw * duration) / 3);
}
