/** Below this a number is written with a power of ten. */
const smallest = 1e-4;

/**
 * A number in few significant digits for a sentence: `1e-8`, `2.4e-9`, `0.03`.
 *
 * @param value - any finite number
 * @param digits - how many at most, 1 to 15
 * @returns its shortest form of that many digits
 */
export function conciseNumber(value: number, digits = 2): string {
  const rounded = Number(value.toPrecision(digits));
  if (rounded === 0 || Math.abs(rounded) >= smallest) return String(rounded);
  return rounded.toExponential();
}
