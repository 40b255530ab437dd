/**
 * Least-squares slope of time error over the edges of a record.
 *
 *   s = Σ (n_i − n̄)(x_i − x̄) / (T · Σ (n_i − n̄)²)
 *
 * @param edge - number n of each edge, ascending; N >= 2 values, dimensionless
 * @param x - time error of these edges; N values, s
 * @param nominalPeriod - nominal period T; s, > 0 (edge may hold times, and T be 1)
 * @returns the slope s; dimensionless (rate = s/(1 − s), see rateOfSlope)
 * @throws RangeError if nominalPeriod is not positive, the lengths differ or N < 2
 *
 * Source: JCGM 100:2008, H.3; Ω estimator of Rubiola et al., arXiv:1506.05009. White PM σ on N edges τ₀
 * apart gives a variance of 12σ²/[N(N² − 1)τ₀²]. Exact for a constant rate.
 */
export function lineFitSlope(edge: Float64Array, x: Float64Array, nominalPeriod: number): number {
  if (!(nominalPeriod > 0)) {
    throw new RangeError(`lineFitSlope: nominalPeriod must be > 0 s, got ${nominalPeriod}`);
  }
  const length = x.length;
  if (length < 2 || edge.length !== length) {
    throw new RangeError(
      `lineFitSlope: edge and x must hold the same number >= 2, got ${edge.length} and ${length}`,
    );
  }
  const first = edge[0]!;
  const origin = x[0]!;
  let meanEdge = 0;
  for (let i = 0; i < length; i++) meanEdge += edge[i]! - first;
  meanEdge /= length;
  let product = 0;
  let square = 0;
  for (let i = 0; i < length; i++) {
    const d = edge[i]! - first - meanEdge;
    product += d * (x[i]! - origin);
    square += d * d;
  }
  return product / (square * nominalPeriod);
}
