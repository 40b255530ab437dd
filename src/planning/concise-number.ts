/**
 * A number in two significant digits for a sentence: `1e-8`, `2.4e-9`, `0.03`.
 *
 * @param value - any finite number
 * @returns its shortest form of at most two digits
 */
export function conciseNumber(value: number): string {
  return String(Number(value.toPrecision(2)));
}
