import { doubleView, indexOfOne, powersOfTwo, wordView } from "./float-bits.ts";

/** ln 2 in two parts: the first with 32 trailing zero bits, so that its product with an exponent is exact. */
const ln2High = 0.6931471803691238;
const ln2Low = 1.9082149292705877e-10;
/** Upper word of √½, which parts the significands to be halved from those that are not. */
const sqrtHalfWord = 0x3fe6a09e;

/**
 * s·(f²/2 + R) − f²/2 with s = f/(2 + f): what is to be added to f to give ln(1 + f).
 * From ln(1 + f) = 2·artanh s and 2s = f − s·f; R = 2·Σ s²ᵏ/(2k + 1), k ≥ 1, summed to k = 11,
 * in pairs, so that the processor can work on several at once.
 */
function logTail(f: number): number {
  const s = f / (2 + f);
  const z = s * s;
  const w = z * z;
  const w2 = w * w;
  const low = 2 / 3 + z * (2 / 5) + w * (2 / 7 + z * (2 / 9));
  const middle = 2 / 11 + z * (2 / 13) + w * (2 / 15 + z * (2 / 17));
  const high = 2 / 19 + z * (2 / 21) + w * (2 / 23);
  const half = 0.5 * f * f;
  return s * (half + z * (low + w2 * (middle + w2 * high))) - half;
}

/**
 * Natural logarithm with the same bits on every engine.
 *
 *   ln x = e·ln 2 + 2·artanh((m − 1)/(m + 1)),  x = m·2ᵉ, √½ ≤ m < √2
 *
 * @param x - any number
 * @returns ln x, within 1 unit in the last place; −∞ for 0, NaN for x < 0 or NaN
 *
 * Source: own derivation from the series of artanh. Exact case: log(1) = 0.
 */
export function log(x: number): number {
  if (!(x > 0 && x < Infinity)) {
    return x === 0 ? -Infinity : x > 0 ? x : NaN;
  }
  if (x < 2.2250738585072014e-308) {
    // A subnormal number: bring it among the normal ones first.
    return log(x * 18014398509481984) - 54 * ln2Low - 54 * ln2High;
  }
  doubleView[0] = x;
  // Exponent of the number with √½ taken as the lower end of the significand.
  const exponent = (wordView[1]! - sqrtHalfWord) >> 20;
  const f = x * powersOfTwo[indexOfOne - exponent]! - 1;
  return exponent * ln2High + (f + (logTail(f) + exponent * ln2Low));
}

/**
 * Logarithm of 1 + x with the same bits on every engine, accurate where x is small.
 *
 *   ln(1 + x)
 *
 * @param x - any number
 * @returns ln(1 + x), within 1.5 units in the last place; −∞ for −1, NaN for x < −1 or NaN
 *
 * Source: own derivation, as `log`. Exact case: log1p(0) = 0.
 */
export function log1p(x: number): number {
  if (x > -0.29 && x < 0.41) {
    return x === 0 ? x : x + logTail(x);
  }
  const u = 1 + x;
  if (!(u > 0 && u < Infinity)) {
    return log(u);
  }
  // What rounding took from 1 + x goes back in first order.
  const lost = x > 1 ? 1 - (u - x) : x - (u - 1);
  return log(u) + lost / u;
}
