/** Powers of ten that a double holds exactly. */
const powers = Float64Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));

/**
 * Reads a number from a stretch of a text; one of few digits without cutting it out.
 *
 *   value = m · 10^e with m < 2^53 and |e| <= 22: one rounding, so that the result is that of Number()
 *
 * @param text - the text
 * @param from - first character of the number
 * @param to - character after its last
 * @param point - code of the decimal point, 46 or 44
 * @returns the number, finite; undefined where it is none, or takes more care
 *
 * Source: Clinger, How to read floating point numbers accurately, PLDI 1990, the fast case. Exact case: "-1.25e-3"
 * is −125/10⁵.
 */
export function plainNumber(
  text: string,
  from: number,
  to: number,
  point: number,
): number | undefined {
  let i = from;
  let code = text.charCodeAt(i);
  const isNegative = code === 45;
  if (isNegative || code === 43) i++;
  let mantissa = 0;
  let digits = 0;
  let exponent = 0;
  let isFraction = false;
  for (; i < to; i++) {
    code = text.charCodeAt(i);
    if (code >= 48 && code <= 57) {
      mantissa = 10 * mantissa + (code - 48);
      digits++;
      if (isFraction) exponent--;
    } else if (code === point && !isFraction) isFraction = true;
    else break;
  }
  if (digits === 0) return undefined;
  if (i < to) {
    if (code !== 101 && code !== 69) return undefined;
    code = text.charCodeAt(++i);
    const isSmall = code === 45;
    if (isSmall || code === 43) i++;
    if (i >= to || to - i > 4) return undefined;
    let power = 0;
    for (; i < to; i++) {
      code = text.charCodeAt(i);
      if (!(code >= 48 && code <= 57)) return undefined;
      power = 10 * power + (code - 48);
    }
    exponent += isSmall ? -power : power;
  }
  // Up to 2^53 the mantissa is exact; once beyond, it has stayed so.
  if (mantissa > Number.MAX_SAFE_INTEGER || exponent < -22 || exponent > 22) {
    const value = point === 46 ? Number(text.slice(from, to)) : Number.NaN;
    return Number.isFinite(value) ? value : undefined;
  }
  const size = exponent < 0 ? mantissa / powers[-exponent]! : mantissa * powers[exponent]!;
  return isNegative ? -size : size;
}
