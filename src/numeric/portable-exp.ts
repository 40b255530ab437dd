import { indexOfOne, powersOfTwo, scaleByPowerOfTwo } from "./float-bits.ts";

/** ln 2 in two parts: the first with 32 trailing zero bits, so that its product with an exponent is exact. */
const ln2High = 0.6931471803691238;
const ln2Low = 1.9082149292705877e-10;
const log2E = Math.LOG2E;

/**
 * r·coth(r/2) − 2 for |r| ≤ ln(2)/2: the series with the Bernoulli numbers, Σ 2·B₂ₖ·r²ᵏ/(2k)!.
 * Then exp r − 1 = r + r·c/(2 − c) with c = r − (this).
 */
function cothSeries(r: number): number {
  const z = r * r;
  const w = z * z;
  return (
    z *
    (1 / 6 -
      z * (1 / 360) +
      w * (1 / 15120 - z * (1 / 604800) + w * (1 / 23950080 - z * (691 / 653837184000))))
  );
}

/**
 * Exponential function with the same bits on every engine.
 *
 *   eˣ = 2ᵏ·eʳ,  x = k·ln 2 + r, |r| ≤ ln(2)/2
 *
 * @param x - any number
 * @returns eˣ, within 1 unit in the last place; ∞ above 709.78, 0 below −745.13, NaN for NaN
 *
 * Source: own derivation; the series of x·coth x with Bernoulli numbers is DLMF 4.19.6 turned to the
 * hyperbolic function. Exact case: exp(0) = 1.
 */
export function exp(x: number): number {
  return expOfSum(x, 0);
}

/**
 * Exponential function of a sum of two doubles, rounded only once.
 *
 *   e^(x + low)
 *
 * @param x - the sum as rounded; any number
 * @param low - what rounding took from it; |low| ≤ 1e-12
 * @returns e^(x + low), within 1 unit in the last place; ∞, 0 and NaN as `exp`
 *
 * Source: as `exp`. Exact case: expOfSum(x, 0) = exp(x).
 */
export function expOfSum(x: number, low: number): number {
  if (!(x > -746 && x < 710)) {
    return x >= 710 ? Infinity : x <= -746 ? 0 : NaN;
  }
  const k = Math.floor(x * log2E + 0.5);
  const high = x - k * ln2High;
  const lower = k * ln2Low - low;
  const r = high - lower;
  const c = r - cothSeries(r);
  return scaleByPowerOfTwo(1 + (high + ((r * c) / (2 - c) - lower)), k);
}

/**
 * Exponential function less one, with the same bits on every engine, accurate where x is small.
 *
 *   eˣ − 1
 *
 * @param x - any number
 * @returns eˣ − 1, within 2 units in the last place; ∞ above 709.78, −1 far below 0, NaN for NaN
 *
 * Source: own derivation, as `exp`. Exact case: expm1(0) = 0.
 */
export function expm1(x: number): number {
  if (x > -0.34 && x < 0.34) {
    const c = x - cothSeries(x);
    return x === 0 ? x : x + (x * c) / (2 - c);
  }
  if (!(x > -40 && x < 40)) {
    return x <= -40 ? -1 : exp(x);
  }
  const k = Math.floor(x * log2E + 0.5);
  const high = x - k * ln2High;
  const low = k * ln2Low;
  const r = high - low;
  const c = r - cothSeries(r);
  const part = high + ((r * c) / (2 - c) - low);
  // eˣ − 1 = 2ᵏ·(part + (1 − 2⁻ᵏ)), where 1 − 2⁻ᵏ is rounded only far from where it matters.
  return (part + (1 - powersOfTwo[indexOfOne - k]!)) * powersOfTwo[indexOfOne + k]!;
}
