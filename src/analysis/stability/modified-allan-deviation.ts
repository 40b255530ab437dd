import { averagedDifferenceSquares } from "./averaged-difference-squares.ts";
import { type GapRule, meanSquare } from "./gap-rule.ts";
import { requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Modified Allan deviation of a time-error record.
 *
 *   mod σ_y²(mτ₀) = 1 / (2 m⁴ τ₀² (N − 3m + 1)) · Σ_{j=0}^{N−3m} [Σ_{i=j}^{j+m−1} (x[i+2m] − 2 x[i+m] + x[i])]²
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param tau0 - spacing of the samples; s, > 0
 * @param m - averaging factor, τ = m·τ₀; integer, 1 <= m and 3m <= N
 * @param gaps - "keep" (default): NaN if any sample used is NaN; "skip": terms that touch a gap are left out
 * @returns mod σ_y(mτ₀); dimensionless
 * @throws RangeError if tau0 or m is outside the ranges above
 *
 * Source: IEEE Std 1139, modified Allan variance; NIST SP 1065, section 5.2.
 * Exact for linear frequency drift D: D·τ/√2; for m = 1 the same as the overlapping Allan deviation.
 */
export function modifiedAllanDeviation(
  x: Float64Array,
  tau0: number,
  m: number,
  gaps: GapRule = "keep",
): number {
  requireSpacing("modifiedAllanDeviation", tau0);
  requireFactor("modifiedAllanDeviation", m, 3, x.length, true);
  return Math.sqrt(meanSquare(averagedDifferenceSquares(x, m), gaps) / 2) / (m * m * tau0);
}
