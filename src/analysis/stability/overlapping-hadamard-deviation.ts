import { thirdDifferenceSquares } from "./difference-squares.ts";
import { type GapRule, meanSquare } from "./gap-rule.ts";
import { requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Overlapping Hadamard deviation of a time-error record.
 *
 *   Hσ_y²(mτ₀) = 1 / (6 m² τ₀² (N − 3m)) · Σ_{i=0}^{N−3m−1} (x[i+3m] − 3 x[i+2m] + 3 x[i+m] − x[i])²
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param tau0 - spacing of the samples; s, > 0
 * @param m - averaging factor, τ = m·τ₀; integer, 1 <= m and 3m < N
 * @param gaps - "keep" (default): NaN if any sample used is NaN; "skip": terms that touch a gap are left out
 * @returns Hσ_y(mτ₀); dimensionless
 * @throws RangeError if tau0 or m is outside the ranges above
 *
 * Source: NIST SP 1065, section 5.2. Exact for linear frequency drift: 0.
 */
export function overlappingHadamardDeviation(
  x: Float64Array,
  tau0: number,
  m: number,
  gaps: GapRule = "keep",
): number {
  requireSpacing("overlappingHadamardDeviation", tau0);
  requireFactor("overlappingHadamardDeviation", m, 3, x.length);
  return Math.sqrt(meanSquare(thirdDifferenceSquares(x, m, 1), gaps) / 6) / (m * tau0);
}
