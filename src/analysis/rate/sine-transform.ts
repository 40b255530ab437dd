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
  const half = n + 1;
  // An odd sequence of 2(n + 1) real samples, every other one as an imaginary part.
  const odd = (i: number) => (i % half === 0 ? 0 : i < half ? v[i - 1]! : -v[2 * half - i - 1]!);
  const re = new Float64Array(half);
  const im = new Float64Array(half);
  for (let i = 0; i < half; i++) {
    re[i] = odd(2 * i);
    im[i] = odd(2 * i + 1);
  }
  fourierTransform(re, im);
  const scale = Math.sqrt(2 / half) / 4;
  const w = new Float64Array(n);
  for (let k = 1; k <= n; k++) {
    const mirror = half - k;
    const angle = (Math.PI * k) / half;
    const even = im[k]! - im[mirror]!;
    w[k - 1] =
      scale *
      ((re[k]! - re[mirror]!) * Math.cos(angle) + (im[k]! + im[mirror]!) * Math.sin(angle) - even);
  }
  return w;
}
