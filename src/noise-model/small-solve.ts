import { log } from "../numeric/index.ts";

/** Inverse and ln det of a small symmetric positive definite matrix. */
export interface SmallInverse {
  /** Row by row; p×p numbers. */
  readonly inverse: Float64Array;
  readonly logDeterminant: number;
}

/**
 * Inverse of a small symmetric positive definite matrix by its Cholesky factor. A regressor that the others make up
 * gets a zero row and column: it is left out.
 *
 * @param matrix - row by row; p×p numbers
 * @param p - order; integer, >= 0
 * @returns inverse and ln det
 *
 * Source: Golub & Van Loan, Matrix Computations, 4.2. Exact case: [[4]] gives [[0.25]], ln 4.
 */
export function smallInverse(matrix: Float64Array, p: number): SmallInverse {
  const factor = new Float64Array(p * p);
  let logDeterminant = 0;
  for (let i = 0; i < p; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * p + j]!;
      for (let k = 0; k < j; k++) sum -= factor[i * p + k]! * factor[j * p + k]!;
      if (i > j) factor[i * p + j] = factor[j * p + j] === 0 ? 0 : sum / factor[j * p + j]!;
      else if (sum > 1e-12 * matrix[i * p + i]!) {
        factor[i * p + i] = Math.sqrt(sum);
        logDeterminant += log(sum);
      }
    }
  }
  const inverse = new Float64Array(p * p);
  const y = new Float64Array(p);
  for (let c = 0; c < p; c++) {
    if (factor[c * p + c] === 0) continue;
    for (let i = 0; i < p; i++) {
      let sum = i === c ? 1 : 0;
      for (let k = 0; k < i; k++) sum -= factor[i * p + k]! * y[k]!;
      y[i] = factor[i * p + i] === 0 ? 0 : sum / factor[i * p + i]!;
    }
    for (let i = p - 1; i >= 0; i--) {
      let sum = y[i]!;
      for (let k = i + 1; k < p; k++) sum -= factor[k * p + i]! * inverse[k * p + c]!;
      inverse[i * p + c] = factor[i * p + i] === 0 ? 0 : sum / factor[i * p + i]!;
    }
  }
  return { inverse, logDeterminant };
}
