/**
 * A number in two significant digits, with an exponent where it is small: `7.3e-6`, `0.031`.
 *
 * @param value - any finite number
 */
export function shortNumber(value: number): string {
  const size = Math.abs(value);
  if (value === 0 || (size >= 1e-3 && size < 1e4)) return String(Number(value.toPrecision(2)));
  return value.toExponential(1).replace(".0e", "e").replace("e+", "e");
}
