/**
 * A number as a cell of a CSV file: the shortest decimal that reads back as the same double.
 *
 * The exponent is written with a capital E and the special values as NaN, INF and -INF, as the number type
 * of Frictionless Table Schema v2 asks; negative zero is written 0.
 *
 * @param value - any double
 * @returns the text of the cell; never empty, never in need of quotes
 *
 * Source: ECMAScript Number::toString (shortest round-trip digits); Frictionless Table Schema v2, `number`.
 * Exact case: 1e-7 gives 1E-7, and 0.1 + 0.2 gives 0.30000000000000004.
 */
export function csvNumber(value: number): string {
  const size = value < 0 ? -value : value;
  if (size >= 1e-6 && size < 1e21) {
    return `${value}`;
  }
  if (size === Infinity) {
    return value < 0 ? "-INF" : "INF";
  }
  // Left are zero, NaN, and the numbers that ECMAScript writes with an exponent.
  return `${value}`.replace("e", "E");
}
