/**
 * Median of the values that are not NaN.
 *
 * @param values - any number of values, any unit; NaN = left out
 * @returns the median, of the unit of the values; NaN if none is left
 *
 * Source: definition; of an even number, the mean of the two in the middle. Exact case: 1, 2, 4 gives 2.
 */
export function median(values: Float64Array): number {
  const sorted = values.filter((v) => !Number.isNaN(v)).sort();
  const n = sorted.length;
  if (n === 0) return Number.NaN;
  const upper = sorted[n >> 1]!;
  return n % 2 === 1 ? upper : (sorted[(n >> 1) - 1]! + upper) / 2;
}

/**
 * Robust standard deviation: median distance from a centre over 0.6745.
 *
 * @param values - any number of values, any unit; NaN = left out
 * @param centre - of the same unit
 * @returns the deviation, of the same unit; NaN if no value is left
 *
 * Source: Riley, NIST SP 1065, outlier removal (from memory). Exact case: equal to σ for normal values.
 */
export function robustDeviation(values: Float64Array, centre: number): number {
  return median(values.map((v) => Math.abs(v - centre))) / 0.6745;
}
