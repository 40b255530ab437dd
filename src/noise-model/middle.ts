/**
 * Median. Above a hundred thousand values an even sample of them stands for all.
 *
 * @param values - at least one number, none NaN
 * @returns the median; unit of the values
 */
export function middle(values: ArrayLike<number>): number {
  const stride = Math.ceil(values.length / 100_000);
  const sorted = new Float64Array(Math.ceil(values.length / stride));
  for (let i = 0; i < sorted.length; i++) sorted[i] = values[i * stride]!;
  sorted.sort();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : 0.5 * (sorted[half - 1]! + sorted[half]!);
}
