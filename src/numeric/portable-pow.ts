import { expOfSum } from "./portable-exp.ts";
import { log } from "./portable-log.ts";
import { twoProductError } from "./two-product.ts";

/** Integer exponents up to this size are multiplied out. */
const mostMultiplied = 1024;

/**
 * Power with the same bits on every engine; those of Node 20 and 24 differ in `**`.
 *
 *   xᵃ by squaring where a is an integer, else e^(a·ln x)
 *
 * @param x - base; >= 0
 * @param a - exponent; finite
 * @returns xᵃ, within |a|·(1 + |ln x|) units in the last place; 0⁰ = 1, NaN for a negative base
 *
 * Source: binary exponentiation (Knuth, The Art of Computer Programming 2, 4.6.3). Exact case: powers of two.
 */
export function pow(x: number, a: number): number {
  if (!(x >= 0)) return Number.NaN;
  if (Number.isInteger(a) && Math.abs(a) <= mostMultiplied) {
    return a < 0 ? reciprocal(x, -a) : multiplied(x, a);
  }
  if (x === 0) return a > 0 ? 0 : Number.POSITIVE_INFINITY;
  const ln = log(x);
  const product = a * ln;
  return Number.isFinite(product)
    ? expOfSum(product, twoProductError(a, ln, product))
    : expOfSum(product, 0);
}

/** Least normal double. */
const leastNormal = 2.2250738585072014e-308;

/** x⁻ⁿ, n an integer > 0. */
function reciprocal(x: number, n: number): number {
  const power = multiplied(x, n);
  if (power >= leastNormal && power < Infinity) return 1 / power;
  // The power leaves the normal numbers, its reciprocal perhaps not: in two halves.
  const half = Math.floor(n / 2);
  return 1 / multiplied(x, half) / multiplied(x, n - half);
}

/** xⁿ, n an integer >= 0. */
function multiplied(x: number, n: number): number {
  let power = 1;
  let square = x;
  for (let left = n; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) power *= square;
    square *= square;
  }
  return power;
}
