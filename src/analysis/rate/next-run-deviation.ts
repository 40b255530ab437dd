import { flickerPmAtEnds } from "./flicker-pm.ts";
import type { NoiseHypothesis } from "./noise-posterior.ts";

/**
 * Standard deviation of the difference between the rates of this run and of a next one as long:
 * √2 × Allan deviation at the run's length, from the noise found.
 *
 *   σ_y²(K·τ₀) = 3σ²/K² + g/K + 2 ln 2·h₋₁ + r·K/3, averaged over the hypotheses
 *
 * @param hypotheses - from noisePosterior, of edges; at least one
 * @param intervals - length of the run in intervals, K; > 0
 * @param independent - true for readings with dead time, whose measurement noise falls as 1/K
 * @returns the standard deviation; dimensionless
 *
 * Source: IEEE Std 1139 (Allan variance of the power-law noises). Exact case: white FM, √(2g/K).
 */
export function nextRunDeviation(
  hypotheses: readonly NoiseHypothesis[],
  intervals: number,
  independent: boolean,
): number {
  let variance = 0;
  let total = 0;
  const white = independent ? 1 / intervals : 3 / (intervals * intervals);
  // Half the mean square of a second difference of x, as an Allan variance has it.
  const flicker =
    (4 * flickerPmAtEnds(intervals) - flickerPmAtEnds(2 * intervals)) / (2 * intervals * intervals);
  const sources = {
    none: 0,
    white_fm: 1 / intervals,
    flicker_fm: 2 * Math.LN2,
    random_walk_fm: intervals / 3,
  };
  for (const h of hypotheses) {
    const source = sources[h.source];
    const jitter = h.whitePm * white + h.flickerPm * flicker;
    const beats = h.beats.reduce((sum, b) => sum + b.power, 0);
    variance += h.probability * (beats * white + h.level * (jitter + h.ratio * source));
    total += h.probability;
  }
  return Math.sqrt((2 * variance) / total);
}
