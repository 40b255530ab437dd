import { doubleView, indexOfOne, powersOfTwo, wordView } from "./float-bits.ts";
import { expOfSum } from "./portable-exp.ts";
import { twoProductError } from "./two-product.ts";

/** ln 2 in two parts: the first with 32 trailing zero bits, so that its product with an exponent is exact. */
const ln2High = 0.6931471803691238;
const ln2Low = 1.9082149292705877e-10;
/** Upper word of √½. */
const sqrtHalfWord = 0x3fe6a09e;
/** 2/3 and what its rounding lost. */
const twoThirds = 2 / 3;
const twoThirdsLow = 3.700743415417188e-17;

/**
 * Power with the same bits on every engine.
 *
 *   xʸ = exp(y·ln x), the logarithm carried as a sum of two doubles
 *
 * @param x - base; ≥ 0, or < 0 with y an integer
 * @param y - exponent; any number
 * @returns xʸ, within 1 unit in the last place; NaN for a negative base with a fractional exponent.
 *   As in the language, pow(x, 0) = 1 for every x and pow(1, ±∞) is NaN
 *
 * Source: own derivation from the series of artanh, in double-double arithmetic (Dekker 1971).
 * Exact case: pow(x, 1) = x; pow(x, 2) is x·x; pow(x, ½) is √x.
 */
export function pow(x: number, y: number): number {
  if (y === 0) {
    return 1;
  }
  if (y === 1) {
    return x;
  }
  if (y === 2) {
    return x * x;
  }
  if (x < 0) {
    if (Math.floor(y) !== y) {
      return x === -Infinity ? powAtLimits(Infinity, y) : NaN;
    }
    const size = pow(-x, y);
    return Math.floor(0.5 * y) * 2 === y ? size : -size;
  }
  if (!(x > 0 && x < Infinity && y > -Infinity && y < Infinity)) {
    return powAtLimits(x, y);
  }
  return y === 0.5 ? Math.sqrt(x) : powPositive(x, y);
}

/** Zero, infinite and not-a-number arguments, by the language's rules. */
function powAtLimits(x: number, y: number): number {
  if (!(x >= 0) || Number.isNaN(y) || (x === 1 && (y === Infinity || y === -Infinity))) {
    return NaN;
  }
  const grows = x > 1 === y > 0;
  return grows ? Infinity : 0;
}

function powPositive(x: number, y: number): number {
  // A subnormal number is brought among the normal ones first.
  const lift = x < 2.2250738585072014e-308 ? 54 : 0;
  const normal = x * powersOfTwo[indexOfOne + lift]!;
  doubleView[0] = normal;
  const e = (wordView[1]! - sqrtHalfWord) >> 20;
  const m = normal * powersOfTwo[indexOfOne - e]!;
  const exponent = e - lift;

  // s = (m − 1)/(m + 1) as two doubles.
  const f = m - 1;
  const g = m + 1;
  const gLow = m - (g - 1);
  const s = f / g;
  const back = s * g;
  const sLow = (f - back - twoProductError(s, g, back) - s * gLow) / g;

  // ln m = 2s + s³·(2/3 + rest): the two leading terms as two doubles each.
  const z = s * s;
  const zLow = twoProductError(s, s, z) + 2 * s * sLow;
  const cube = s * z;
  const cubeLow = twoProductError(s, z, cube) + s * zLow + sLow * z;
  const third = cube * twoThirds;
  const thirdLow =
    twoProductError(cube, twoThirds, third) + cubeLow * twoThirds + cube * twoThirdsLow;
  const w = z * z;
  const w2 = w * w;
  const rest =
    2 / 5 +
    z * (2 / 7) +
    w * (2 / 9 + z * (2 / 11)) +
    w2 * (2 / 13 + z * (2 / 15) + w * (2 / 17 + z * (2 / 19)) + w2 * (2 / 21 + z * (2 / 23)));
  const small = 2 * sLow + thirdLow + cube * z * rest + exponent * ln2Low;

  // Sum of e·ln 2, 2s, s³·2/3 and the small parts, keeping what each addition loses.
  const a = exponent * ln2High;
  const ab = a + 2 * s;
  const abLow = exponent === 0 ? 0 : 2 * s - (ab - a);
  const abc = ab + third;
  const abcLow = third - (abc - ab);
  const tail = abLow + abcLow + small;
  const logHigh = abc + tail;
  const logLow = tail - (logHigh - abc);

  const power = y * logHigh;
  if (!(power > -746 && power < 710)) {
    return power > 0 ? Infinity : 0;
  }
  return expOfSum(power, twoProductError(y, logHigh, power) + y * logLow);
}
