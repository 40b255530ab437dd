/**
 * Time interval error over n sampling intervals, at every starting instant.
 *
 *   TIE_k(nτ₀) = x[k+n] − x[k]
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param n - observation interval in sampling intervals; integer, 1 <= n < N
 * @returns N − n values; s. NaN where either end is a gap
 * @throws RangeError if n is outside the range above
 *
 * Source: ITU-T Rec. G.810, definition of TIE. Exact for a constant frequency offset y: y·n·τ₀ everywhere.
 */
export function timeIntervalError(x: Float64Array, n: number): Float64Array {
  if (!Number.isInteger(n) || n < 1 || n >= x.length) {
    throw new RangeError(
      `timeIntervalError: n must be an integer with 1 <= n < N = ${x.length}, got ${n}`,
    );
  }
  const error = new Float64Array(x.length - n);
  for (let k = 0; k < error.length; k++) error[k] = x[k + n]! - x[k]!;
  return error;
}
