import type { SquareSum } from "./gap-rule.ts";

/**
 * Sum of squared second differences of a time-error record.
 *
 *   Σ (x[i+2m] − 2 x[i+m] + x[i])²,  i = 0, stride, 2·stride, … while i + 2m < N
 *
 * @param x - time error; N samples, s
 * @param m - lag; integer, m >= 1
 * @param stride - 1 for overlapping terms, m for terms side by side; integer >= 1
 * @returns sum in s² and counts; terms with a NaN are counted apart
 *
 * Exact for linear frequency drift D: every term is D²m⁴τ₀⁴.
 */
export function secondDifferenceSquares(x: Float64Array, m: number, stride: number): SquareSum {
  const end = x.length - 2 * m;
  let sum = 0;
  let terms = 0;
  let skipped = 0;
  for (let i = 0; i < end; i += stride) {
    const d = x[i + 2 * m]! - x[i + m]! - (x[i + m]! - x[i]!);
    if (!Number.isNaN(d)) {
      sum += d * d;
      terms++;
    } else skipped++;
  }
  return { sum, terms, skipped };
}

/**
 * Sum of squared third differences of a time-error record.
 *
 *   Σ (x[i+3m] − 3 x[i+2m] + 3 x[i+m] − x[i])²,  i = 0, stride, 2·stride, … while i + 3m < N
 *
 * @param x - time error; N samples, s
 * @param m - lag; integer, m >= 1
 * @param stride - 1 for overlapping terms, m for terms side by side; integer >= 1
 * @returns sum in s² and counts; terms with a NaN are counted apart
 *
 * Exact for linear frequency drift: every term is zero.
 */
export function thirdDifferenceSquares(x: Float64Array, m: number, stride: number): SquareSum {
  const end = x.length - 3 * m;
  let sum = 0;
  let terms = 0;
  let skipped = 0;
  for (let i = 0; i < end; i += stride) {
    const d = x[i + 3 * m]! - x[i]! - 3 * (x[i + 2 * m]! - x[i + m]!);
    if (!Number.isNaN(d)) {
      sum += d * d;
      terms++;
    } else skipped++;
  }
  return { sum, terms, skipped };
}
