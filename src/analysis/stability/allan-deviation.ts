import { secondDifferenceSquares } from "./difference-squares.ts";
import { type GapRule, meanSquare } from "./gap-rule.ts";
import { requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Allan deviation of a time-error record from readings side by side (no overlap).
 *
 *   σ_y²(τ) = ½ ⟨(ȳ_{k+1} − ȳ_k)²⟩, ȳ_k the mean fractional frequency over the k-th interval of τ = mτ₀;
 *   samples of x beyond the last whole interval are not used
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param tau0 - spacing of the samples; s, > 0
 * @param m - averaging factor, τ = m·τ₀; integer, 1 <= m and 2m < N
 * @param gaps - "keep" (default): NaN if any sample used is NaN; "skip": terms that touch a gap are left out
 * @returns σ_y(mτ₀); dimensionless
 * @throws RangeError if tau0 or m is outside the ranges above
 *
 * Source: IEEE Std 1139, definition of the Allan variance; NIST SP 1065, section 5.2.
 * Exact for linear frequency drift D: σ_y(τ) = D·τ/√2.
 */
export function allanDeviation(
  x: Float64Array,
  tau0: number,
  m: number,
  gaps: GapRule = "keep",
): number {
  requireSpacing("allanDeviation", tau0);
  requireFactor("allanDeviation", m, 2, x.length);
  return Math.sqrt(meanSquare(secondDifferenceSquares(x, m, m), gaps) / 2) / (m * tau0);
}
