/** 2²⁷ + 1, which splits a 53-bit significand into two of 26 bits. */
const splitter = 134217729;

/**
 * What rounding took from a product, so that a·b = p + twoProductError(a, b, p) exactly.
 *
 *   a·b − fl(a·b)
 *
 * @param a - factor; magnitude < 2⁹⁹⁵, so that the split does not overflow
 * @param b - factor; likewise
 * @param product - a·b as rounded by the machine
 * @returns a·b − product; exact unless the product is below 2⁻⁹⁶⁹ in magnitude
 *
 * Source: G. W. Veltkamp's split and T. J. Dekker, "A Floating-Point Technique for Extending the
 * Available Precision", Numer. Math. 18, 1971. Exact case: 0 where the product is representable.
 */
export function twoProductError(a: number, b: number, product: number): number {
  const highA = highPart(a);
  const lowA = a - highA;
  const highB = highPart(b);
  const lowB = b - highB;
  return lowA * lowB - (product - highA * highB - lowA * highB - highA * lowB);
}

/**
 * The upper 26 bits of a number, so that products of such parts, and of what is left, are exact.
 *
 * @param a - magnitude < 2⁹⁹⁵
 */
export function highPart(a: number): number {
  const split = splitter * a;
  return split - (split - a);
}
