/**
 * Slope of time error from the first edge of a record to the last.
 *
 *   s = (x_N − x_1) / (T · (n_N − n_1))
 *
 * @param edge - number n of each edge, ascending; N >= 2 values, dimensionless
 * @param x - time error of these edges; N values, s
 * @param nominalPeriod - nominal period T; s, > 0 (edge may hold times, and T be 1)
 * @returns the slope s; dimensionless (rate = s/(1 − s), see rateOfSlope)
 * @throws RangeError if nominalPeriod is not positive, the lengths differ or N < 2
 *
 * Source: definition; Π estimator of Rubiola, Rev. Sci. Instrum. 76, 054703 (2005). White PM σ gives a
 * variance of 2σ²/[T(n_N − n_1)]². Exact for a constant rate.
 */
export function endToEndSlope(edge: Float64Array, x: Float64Array, nominalPeriod: number): number {
  if (!(nominalPeriod > 0)) {
    throw new RangeError(`endToEndSlope: nominalPeriod must be > 0 s, got ${nominalPeriod}`);
  }
  const last = x.length - 1;
  if (last < 1 || edge.length !== x.length) {
    throw new RangeError(
      `endToEndSlope: edge and x must hold the same number >= 2, got ${edge.length} and ${x.length}`,
    );
  }
  return (x[last]! - x[0]!) / ((edge[last]! - edge[0]!) * nominalPeriod);
}
