import { thirdDifferenceSquares } from "./difference-squares.ts";
import { type GapRule, meanSquare } from "./gap-rule.ts";
import { requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Hadamard deviation of a time-error record from readings side by side (no overlap).
 *
 *   Hσ_y²(mτ₀) = ⟨(x[i+3m] − 3 x[i+2m] + 3 x[i+m] − x[i])²⟩ / (6 m² τ₀²),  i = 0, m, 2m, …
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
export function hadamardDeviation(
  x: Float64Array,
  tau0: number,
  m: number,
  gaps: GapRule = "keep",
): number {
  requireSpacing("hadamardDeviation", tau0);
  requireFactor("hadamardDeviation", m, 3, x.length);
  return Math.sqrt(meanSquare(thirdDifferenceSquares(x, m, m), gaps) / 6) / (m * tau0);
}
