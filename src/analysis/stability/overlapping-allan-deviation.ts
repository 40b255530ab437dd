import { secondDifferenceSquares } from "./difference-squares.ts";
import { type GapRule, meanSquare } from "./gap-rule.ts";
import { requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Overlapping Allan deviation of a time-error record.
 *
 *   σ_y²(mτ₀) = 1 / (2 m² τ₀² (N − 2m)) · Σ_{i=0}^{N−2m−1} (x[i+2m] − 2 x[i+m] + x[i])²
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param tau0 - spacing of the samples; s, > 0
 * @param m - averaging factor, τ = m·τ₀; integer, 1 <= m and 2m < N
 * @param gaps - "keep" (default): NaN if any sample used is NaN; "skip": terms that touch a gap are left out
 * @returns σ_y(mτ₀); dimensionless
 * @throws RangeError if tau0 or m is outside the ranges above
 *
 * Source: IEEE Std 1139, definition of the Allan variance, overlapped estimator; NIST SP 1065, section 5.2.
 * Exact for linear frequency drift D: σ_y(τ) = D·τ/√2.
 */
export function overlappingAllanDeviation(
  x: Float64Array,
  tau0: number,
  m: number,
  gaps: GapRule = "keep",
): number {
  requireSpacing("overlappingAllanDeviation", tau0);
  requireFactor("overlappingAllanDeviation", m, 2, x.length);
  return Math.sqrt(meanSquare(secondDifferenceSquares(x, m, 1), gaps) / 2) / (m * tau0);
}
