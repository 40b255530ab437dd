import { overlappingHadamardDeviation } from "./overlapping-hadamard-deviation.ts";
import { reflectedRunMeanSquare } from "./reflected-run.ts";
import { requireBias, requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Hadamard total deviation of a time-error record.
 *
 *   Hσ_tot²(mτ₀) = 1 / (6 (M − 3m + 1)) · Σ over runs of 3m readings of ⟨(ȳ_p − 2 ȳ_{p+m} + ȳ_{p+2m})²⟩,
 *   y the M = N − 1 fractional frequencies, each run detrended and extended to 9m by even reflection
 *
 * At m = 1 three readings leave nothing to extend, and the Hadamard deviation itself is given. Work grows as N·m.
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param tau0 - spacing of the samples; s, > 0
 * @param m - averaging factor, τ = m·τ₀; integer, 1 <= m and 3m < N
 * @param bias - ratio of the expected value to the Hadamard variance, by which the variance is divided when m > 1;
 *   dimensionless, > 0; 1 leaves the raw statistic, 0.995 is the value for white FM
 * @returns Hσ_tot(mτ₀); dimensionless. NaN if any sample is NaN (a gap)
 * @throws RangeError if tau0, m or bias is outside the ranges above
 *
 * Source: NIST SP 1065, section 5.2. Exact for linear frequency drift: 0.
 */
export function hadamardTotalDeviation(x: Float64Array, tau0: number, m: number, bias = 1): number {
  requireSpacing("hadamardTotalDeviation", tau0);
  requireFactor("hadamardTotalDeviation", m, 3, x.length);
  requireBias("hadamardTotalDeviation", bias);
  if (m === 1) return overlappingHadamardDeviation(x, tau0, 1);
  const y = new Float64Array(x.length - 1);
  for (let i = 0; i < y.length; i++) y[i] = (x[i + 1]! - x[i]!) / tau0;
  const room = new Float64Array(9 * m + 1);
  const runs = y.length - 3 * m + 1;
  let sum = 0;
  for (let start = 0; start < runs; start++) sum += reflectedRunMeanSquare(y, start, m, room);
  return Math.sqrt(sum / (6 * runs * bias));
}
