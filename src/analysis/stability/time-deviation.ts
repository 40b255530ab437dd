import type { GapRule } from "./gap-rule.ts";
import { modifiedAllanDeviation } from "./modified-allan-deviation.ts";
import { requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Time deviation (square root of the time variance, TVAR) of a time-error record.
 *
 *   TDEV(nτ₀)² = 1 / (6 n² (N − 3n + 1)) · Σ_j [Σ_{i=j}^{j+n−1} (x[i+2n] − 2 x[i+n] + x[i])]²
 *              = τ² · mod σ_y²(τ) / 3
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param tau0 - spacing of the samples; s, > 0
 * @param m - averaging factor n, τ = n·τ₀; integer, 1 <= m and 3m <= N
 * @param gaps - "keep" (default): NaN if any sample used is NaN; "skip": terms that touch a gap are left out
 * @returns TDEV(mτ₀); s
 * @throws RangeError if tau0 or m is outside the ranges above
 *
 * Source: ITU-T Rec. G.810, Appendix II, estimator of TVAR; NIST SP 1065, section 5.2.
 * Exact for linear frequency drift D: D·τ²/√6.
 */
export function timeDeviation(
  x: Float64Array,
  tau0: number,
  m: number,
  gaps: GapRule = "keep",
): number {
  requireSpacing("timeDeviation", tau0);
  requireFactor("timeDeviation", m, 3, x.length, true);
  return (m * tau0 * modifiedAllanDeviation(x, tau0, m, gaps)) / Math.sqrt(3);
}
