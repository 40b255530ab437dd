/**
 * A number in few significant digits for a sentence or a table: `7.3e-6`, `0.031`, `1.29`.
 *
 * @param value - any finite number
 * @param digits - how many at most, 1 to 15
 * @returns its shortest form, with an exponent below 1e-3
 */
export function shortNumber(value: number, digits = 2): string {
  const rounded = Number(value.toPrecision(digits));
  const size = Math.abs(rounded);
  if (rounded === 0 || (size >= 1e-3 && size < 1e6)) return String(rounded);
  return rounded.toExponential().replace("e+", "e");
}
