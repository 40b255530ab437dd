/** Below this a number is written with a power of ten. */
const smallest = 1e-4;

/**
 * A number in two significant digits for a sentence: `1e-8`, `2.4e-9`, `0.03`.
 *
 * @param value - any finite number
 * @returns its shortest form of at most two digits
 */
export function conciseNumber(value: number): string {
  const rounded = Number(value.toPrecision(2));
  if (rounded === 0 || Math.abs(rounded) >= smallest) return String(rounded);
  return rounded.toExponential(1).replace(/\.0e/, "e");
}
