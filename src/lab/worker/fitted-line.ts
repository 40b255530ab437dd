/**
 * The straight line of least squares through a time error record.
 *
 * @param time - s; N values, 2 or more of them different
 * @param x - time error at each; s
 * @returns intercept in s and slope; null where no line is fixed
 *
 * Source: ordinary least squares. Exact case: points on a line give that line.
 */
export function fittedLine(
  time: Float64Array,
  x: Float64Array,
): { readonly intercept: number; readonly slope: number } | null {
  const n = time.length;
  if (n < 2) return null;
  const middle = time.reduce((sum, t) => sum + t, 0) / n;
  const mean = x.reduce((sum, value) => sum + value, 0) / n;
  let squares = 0;
  let products = 0;
  for (let i = 0; i < n; i++) {
    squares += (time[i]! - middle) ** 2;
    products += (time[i]! - middle) * (x[i]! - mean);
  }
  if (squares === 0) return null;
  const slope = products / squares;
  return { intercept: mean - slope * middle, slope };
}
