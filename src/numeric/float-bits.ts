/**
 * One double seen as two 32-bit words, for the portable functions that take exponents apart.
 * A little-endian machine is assumed, as every engine in use is: word 1 holds sign, exponent and
 * the upper 20 bits of the significand.
 */
export const doubleView = new Float64Array(1);

/** The same eight bytes as `doubleView`: word 0 low, word 1 high. */
export const wordView = new Int32Array(doubleView.buffer);

/**
 * Power of two with an integer exponent, exactly.
 *
 *   2ⁿ
 *
 * @param n - exponent; integer, −1022 ≤ n ≤ 1023 (normal numbers only; not checked, hot path)
 * @returns 2ⁿ; exact
 *
 * Source: IEEE 754-2019, binary64 format. Exact case: powerOfTwo(0) = 1.
 */
export function powerOfTwo(n: number): number {
  wordView[0] = 0;
  wordView[1] = (n + 1023) << 20;
  return doubleView[0]!;
}

/**
 * A double times a power of two, rounded once, also into the subnormal numbers and to ∞.
 *
 *   x·2ⁿ
 *
 * @param x - any finite number of magnitude within [1/4, 4], or 0
 * @param n - exponent; integer, −1100 ≤ n ≤ 1100
 * @returns x·2ⁿ; ∞ on overflow, 0 on underflow
 *
 * Source: IEEE 754-2019, scaleB. Exact case: scaleByPowerOfTwo(1, −1074) is the least positive double.
 */
export function scaleByPowerOfTwo(x: number, n: number): number {
  if (n > 1022) {
    return x * powerOfTwo(1022) * powerOfTwo(n - 1022);
  }
  if (n < -1020) {
    return x * powerOfTwo(n + 200) * powerOfTwo(-200);
  }
  return x * powerOfTwo(n);
}
