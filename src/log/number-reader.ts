/** Powers of ten that a double holds exactly. */
const powers = Float64Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));

const zero = 48;
const minus = 45;
const longMinus = 0x2212;

/**
 * Reads numbers as people and instruments write them, without cutting them out of their text.
 *
 *   value = m · 10^e with m < 2^53 and |e| <= 22: one rounding, so that the result is that of Number()
 *
 * Source: Clinger, How to read floating point numbers accurately, PLDI 1990, the fast case. Exact case: "1.000 028 5"
 * with three powers taken off is 1000.0285e-6.
 */
export class NumberReader {
  value = Number.NaN;
  /** Power of ten of the last digit written, and of the first that is not 0. */
  step = 0;
  lead = 0;

  /**
   * @param text - a text that holds a number, by the grammar of `scanner`
   * @param from - first character of the number
   * @param to - character after its last
   * @param point - code of the decimal sign
   * @param shift - power of ten by which to multiply: that of the unit
   */
  read(text: string, from: number, to: number, point: number, shift: number): void {
    let i = from;
    let code = text.charCodeAt(i);
    const isNegative = code === minus || code === longMinus;
    let mantissa = 0;
    let digits = 0;
    let step = shift;
    let isFraction = false;
    for (; i < to; i++) {
      code = text.charCodeAt(i);
      if (code >= zero && code <= zero + 9) {
        mantissa = 10 * mantissa + (code - zero);
        if (mantissa > 0) digits++;
        if (isFraction) step--;
      } else if (code === point) isFraction = true;
      else if (isExponentSign(code)) break;
    }
    const end = i;
    if (i < to) step += exponentAt(text, i, to);
    this.step = step;
    this.lead = step + Math.max(digits, 1) - 1;
    let size: number;
    // Up to 2^53 the mantissa is exact.
    if (mantissa > Number.MAX_SAFE_INTEGER || step < -22 || step > 22) {
      size = Number(`${text.slice(from, end).replace(/\D/g, "")}e${step}`);
    } else size = step < 0 ? mantissa / powers[-step]! : mantissa * powers[step]!;
    this.value = isNegative ? -size : size;
  }
}

/** E or D, or a sign of multiplication before a power of ten. */
function isExponentSign(code: number): boolean {
  const letter = code | 32;
  return letter === 101 || letter === 100 || code === 120 || code === 215 || code === 42;
}

function exponentAt(text: string, from: number, to: number): number {
  const written = text.slice(from + 1, to).replace(/\s|10[\^*]*/g, "");
  return Number(written.replace("\u2212", "-"));
}
