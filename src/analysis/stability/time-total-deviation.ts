import { modifiedTotalDeviation } from "./modified-total-deviation.ts";
import { requireBias, requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Time total deviation of a time-error record: the time deviation by way of the modified total deviation.
 *
 *   TDEV_tot(τ) = τ · mod σ_tot(τ) / √3
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param tau0 - spacing of the samples; s, > 0
 * @param m - averaging factor, τ = m·τ₀; integer, 1 <= m and 3m <= N
 * @param bias - as for the modified total deviation; dimensionless, > 0
 * @returns TDEV_tot(mτ₀); s. NaN if any sample is NaN (a gap)
 * @throws RangeError if tau0, m or bias is outside the ranges above
 *
 * Source: NIST SP 1065, section 5.2. Exact for a constant frequency offset: 0.
 */
export function timeTotalDeviation(x: Float64Array, tau0: number, m: number, bias = 1): number {
  requireSpacing("timeTotalDeviation", tau0);
  requireFactor("timeTotalDeviation", m, 3, x.length, true);
  requireBias("timeTotalDeviation", bias);
  return (m * tau0 * modifiedTotalDeviation(x, tau0, m, bias)) / Math.sqrt(3);
}
