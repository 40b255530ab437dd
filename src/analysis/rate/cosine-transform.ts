import { fourierTransform } from "./fourier-transform.ts";

/**
 * Orthonormal discrete cosine transform of the second kind.
 *
 *   w[0] = Σ v[i]/√n,   w[k] = √(2/n) · Σ_{i=0}^{n−1} v[i] · cos(πk(2i+1)/(2n)),  k = 1..n−1
 *
 * @param v - samples; n >= 1 of them, any unit
 * @returns the n coefficients, of the unit of v
 * @throws RangeError if v is empty
 *
 * Source: Makhoul, IEEE Trans. Acoust. Speech Signal Process. 28, 27 (1980). Exact case: a constant c
 * gives w[0] = c·√n and nothing else.
 */
export function cosineTransform(v: Float64Array): Float64Array {
  const n = v.length;
  if (n === 0) throw new RangeError("cosineTransform: v must hold at least one sample, got 0");
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  for (let i = 0; 2 * i < n; i++) re[i] = v[2 * i]!;
  for (let i = 0; 2 * i + 1 < n; i++) re[n - 1 - i] = v[2 * i + 1]!;
  fourierTransform(re, im);
  const w = new Float64Array(n);
  w[0] = re[0]! / Math.sqrt(n);
  const scale = Math.sqrt(2 / n);
  for (let k = 1; k < n; k++) {
    const angle = (Math.PI * k) / (2 * n);
    w[k] = scale * (re[k]! * Math.cos(angle) + im[k]! * Math.sin(angle));
  }
  return w;
}
