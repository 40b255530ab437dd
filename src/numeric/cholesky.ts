/**
 * Lower Cholesky factor of a covariance matrix, singular ones included.
 *
 *   L·Lᵀ = C
 *
 * A row that depends wholly on the rows before it gets a zero pivot, so that a deviate multiplied by it
 * adds nothing.
 *
 * @param covariance - C, symmetric, row by row; n×n numbers
 * @param n - order; integer, >= 1
 * @param rounding - a pivot below this part of its variance is rounding, and counts as zero; dimensionless
 * @returns L, row by row, zero above the diagonal; n×n numbers
 * @throws RangeError if C has not n×n numbers or is not positive semidefinite within rounding
 *
 * Source: Golub & Van Loan, Matrix Computations, 4.2. Exact case: [[4, 2], [2, 5]] gives [[2, 0], [1, 2]].
 */
export function cholesky(covariance: Float64Array, n: number, rounding = 1e-12): Float64Array {
  if (covariance.length !== n * n) {
    throw new RangeError(
      `cholesky: covariance must hold ${n * n} numbers, got ${covariance.length}`,
    );
  }
  const factor = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const variance = covariance[j * n + j]!;
    let pivot = variance;
    for (let k = 0; k < j; k++) {
      pivot -= factor[j * n + k]! * factor[j * n + k]!;
    }
    if (!(pivot >= -rounding * Math.abs(variance) && variance >= 0)) {
      throw new RangeError(
        `cholesky: covariance must be positive semidefinite, got pivot ${pivot} in row ${j}`,
      );
    }
    if (pivot <= rounding * variance) {
      continue;
    }
    const root = Math.sqrt(pivot);
    factor[j * n + j] = root;
    for (let i = j + 1; i < n; i++) {
      let rest = covariance[i * n + j]!;
      for (let k = 0; k < j; k++) {
        rest -= factor[i * n + k]! * factor[j * n + k]!;
      }
      factor[i * n + j] = rest / root;
    }
  }
  return factor;
}
