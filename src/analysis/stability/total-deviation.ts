import { requireFactor, requireSpacing } from "./require-arguments.ts";

/**
 * Total deviation of a time-error record: the record is extended at both ends by odd reflection, so that every
 * sample but the first and the last is the middle of a second difference, up to τ = the whole record.
 *
 *   σ_tot²(mτ₀) = 1 / (2 m² τ₀² (N − 2)) · Σ_{i=1}^{N−2} (x*[i−m] − 2 x*[i] + x*[i+m])²,
 *   x*[−k] = 2x[0] − x[k],  x*[N−1+k] = 2x[N−1] − x[N−1−k]
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param tau0 - spacing of the samples; s, > 0
 * @param m - averaging factor, τ = m·τ₀; integer, 1 <= m < N, and N >= 3
 * @returns σ_tot(mτ₀); dimensionless. NaN if any sample is NaN (a gap); not corrected for bias
 * @throws RangeError if tau0, m or N is outside the ranges above
 *
 * Source: NIST SP 1065, section 5.2. Exact: 0 for a constant frequency offset; for m = 1 the Allan deviation.
 */
export function totalDeviation(x: Float64Array, tau0: number, m: number): number {
  requireSpacing("totalDeviation", tau0);
  const n = x.length;
  if (n < 3) throw new RangeError(`totalDeviation: x must hold at least 3 samples, got ${n}`);
  requireFactor("totalDeviation", m, 1, n);
  const first = x[0]!;
  const last = x[n - 1]!;
  let sum = 0;
  for (let i = 1; i < n - 1; i++) {
    const before = i >= m ? x[i - m]! : 2 * first - x[m - i]!;
    const after = i + m < n ? x[i + m]! : 2 * last - x[2 * (n - 1) - i - m]!;
    const d = after - x[i]! - (x[i]! - before);
    sum += d * d;
  }
  return Math.sqrt(sum / (2 * (n - 2))) / (m * tau0);
}
