import { reflectedRunMeanSquare } from "./reflected-run.ts";
import { requireBias, requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Modified total deviation of a time-error record.
 *
 *   mod σ_tot²(mτ₀) = 1 / (2 m² τ₀² (N − 3m + 1)) · Σ over runs of 3m samples of ⟨(z̄_p − 2 z̄_{p+m} + z̄_{p+2m})²⟩,
 *   each run detrended and extended to 9m samples by even reflection
 *
 * Work grows as N·m, so it suits short records; nothing is left out to save time.
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param tau0 - spacing of the samples; s, > 0
 * @param m - averaging factor, τ = m·τ₀; integer, 1 <= m and 3m <= N
 * @param bias - ratio of the expected value to the modified Allan variance, by which the variance is divided;
 *   dimensionless, > 0; 1 leaves the raw statistic, 0.73 is the value for white FM
 * @returns mod σ_tot(mτ₀); dimensionless. NaN if any sample is NaN (a gap)
 * @throws RangeError if tau0, m or bias is outside the ranges above
 *
 * Source: NIST SP 1065, section 5.2 (bias 0.73 for white FM). Exact for a constant frequency offset: 0.
 */
export function modifiedTotalDeviation(x: Float64Array, tau0: number, m: number, bias = 1): number {
  requireSpacing("modifiedTotalDeviation", tau0);
  requireFactor("modifiedTotalDeviation", m, 3, x.length, true);
  requireBias("modifiedTotalDeviation", bias);
  const room = new Float64Array(9 * m + 1);
  const runs = x.length - 3 * m + 1;
  let sum = 0;
  for (let start = 0; start < runs; start++) sum += reflectedRunMeanSquare(x, start, m, room);
  return Math.sqrt(sum / (2 * runs * bias)) / (m * tau0);
}
