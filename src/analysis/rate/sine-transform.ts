import { fourierTransform } from "./fourier-transform.ts";

/**
 * Orthonormal discrete sine transform of the first kind.
 *
 *   w[k−1] = √(2/(n+1)) · Σ_{i=1}^{n} v[i−1] · sin(πki/(n+1)),  k = 1..n
 *
 * @param v - samples; n >= 1 of them, any unit
 * @returns the n coefficients, of the unit of v; the transform is its own inverse
 * @throws RangeError if v is empty
 *
 * Source: Martucci, IEEE Trans. Signal Process. 42, 1038 (1994). Exact case: it diagonalises the
 * tridiagonal matrix (−1, 2, −1), with eigenvalues 2 − 2 cos(πk/(n+1)).
 */
export function sineTransform(v: Float64Array): Float64Array {
  const n = v.length;
  if (n === 0) throw new RangeError("sineTransform: v must hold at least one sample, got 0");
  const re = new Float64Array(2 * (n + 1));
  const im = new Float64Array(2 * (n + 1));
  for (let i = 1; i <= n; i++) {
    re[i] = v[i - 1]!;
    re[2 * (n + 1) - i] = -v[i - 1]!;
  }
  fourierTransform(re, im);
  const scale = Math.sqrt(2 / (n + 1)) / 2;
  const w = new Float64Array(n);
  for (let k = 1; k <= n; k++) w[k - 1] = -im[k]! * scale;
  return w;
}
