/**
 * Which of some factors a ratio comes nearest to, by the logarithm.
 *
 * @param ratio - > 0
 * @param factors - > 0 each
 * @returns index, or null where the ratio is no number above 0
 *
 * Exact case: (9, [1, 3, 10]) gives 2.
 */
export function nearestChoice(ratio: number, factors: readonly number[]): number | null {
  if (!(ratio > 0 && ratio < Number.POSITIVE_INFINITY)) return null;
  const distances = factors.map((factor) => Math.abs(Math.log(ratio / factor)));
  return distances.indexOf(Math.min(...distances));
}

/**
 * In which of the classes between some limits a value lies.
 *
 * @param value - any number; NaN counts as beyond the last limit
 * @param limits - ascending
 * @returns index from 0 (below the first limit) to `limits.length`
 *
 * Exact case: (5, [1, 10]) gives 1.
 */
export function classOf(value: number, limits: readonly number[]): number {
  const found = limits.findIndex((limit) => value < limit);
  return found < 0 ? limits.length : found;
}
