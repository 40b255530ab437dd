/**
 * Mean of readings as a slope of time error: total count over total time, never the mean of single rates.
 *
 *   s = Σ a_i / (T · Σ c_i),   a_i = c_i · (T − P_i) = x(last edge) − x(first edge) of reading i
 *
 * @param advance - gain a_i of the time error in each reading; K values, s; NaN = missing, left out
 * @param cycles - cycles c_i in each reading; K values, > 0
 * @param nominalPeriod - nominal period T; s, > 0
 * @returns the slope s; dimensionless (rate = s/(1 − s), see rateOfSlope); NaN if no reading is left
 * @throws RangeError if nominalPeriod is not positive or the lengths differ
 *
 * Source: the mean of frequencies is biased by their variance, count over time is not (own derivation,
 * Jensen's inequality). Exact for readings of one and the same period P: rate = T/P − 1.
 */
export function meanOfReadingsSlope(
  advance: Float64Array,
  cycles: Float64Array,
  nominalPeriod: number,
): number {
  if (!(nominalPeriod > 0)) {
    throw new RangeError(`meanOfReadingsSlope: nominalPeriod must be > 0 s, got ${nominalPeriod}`);
  }
  if (advance.length !== cycles.length) {
    throw new RangeError(
      `meanOfReadingsSlope: cycles must be as many as advance, got ${cycles.length} and ${advance.length}`,
    );
  }
  let gained = 0;
  let lost = 0;
  let count = 0;
  for (let i = 0; i < advance.length; i++) {
    const a = advance[i]!;
    if (Number.isNaN(a)) continue;
    count += cycles[i]!;
    // Neumaier's compensated sum: a million readings must add up to better than their resolution.
    const sum = gained + a;
    lost += Math.abs(gained) >= Math.abs(a) ? gained - sum + a : a - sum + gained;
    gained = sum;
  }
  return count > 0 ? (gained + lost) / (count * nominalPeriod) : Number.NaN;
}
