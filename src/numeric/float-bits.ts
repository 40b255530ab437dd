/**
 * One double seen as two 32-bit words, for the portable functions that take exponents apart.
 * A little-endian machine is assumed, as every engine in use is: word 1 holds sign, exponent and
 * the upper 20 bits of the significand.
 */
export const doubleView = new Float64Array(1);

/** The same eight bytes as `doubleView`: word 0 low, word 1 high. */
export const wordView = new Int32Array(doubleView.buffer);

/** Index of 2⁰ in `powersOfTwo`. */
export const indexOfOne = 1074;

/**
 * Every power of two that is a double, 2⁻¹⁰⁷⁴ … 2¹⁰²³, all exact. A table, since writing the words of a
 * double and reading it back at once makes the processor wait.
 */
export const powersOfTwo = new Float64Array(2098);
powersOfTwo[indexOfOne] = 1;
for (let n = 1; n <= 1023; n++) {
  powersOfTwo[indexOfOne + n] = powersOfTwo[indexOfOne + n - 1]! * 2;
}
for (let n = 1; n <= indexOfOne; n++) {
  powersOfTwo[indexOfOne - n] = powersOfTwo[indexOfOne - n + 1]! / 2;
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
    return x * powersOfTwo[indexOfOne + 1022]! * powersOfTwo[indexOfOne + n - 1022]!;
  }
  if (n < -1020) {
    return x * powersOfTwo[indexOfOne + n + 200]! * powersOfTwo[indexOfOne - 200]!;
  }
  return x * powersOfTwo[indexOfOne + n]!;
}
