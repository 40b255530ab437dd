/** Powers of ten that a double holds exactly. */
const powers = Float64Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));

const zero = 48;
const dot = 46;
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
  /** Digits before the decimal sign, after it, and those of the exponent. */
  whole = 0;
  decimals = 0;
  exponentDigits = 0;
  /** Whether the last digit is a 0, and whether the exponent begins with one. */
  endsInZero = false;
  hasPaddedExponent = false;

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
    let whole = 0;
    let decimals = 0;
    let isFraction = false;
    for (; i < to; i++) {
      code = text.charCodeAt(i);
      if (code >= zero && code <= zero + 9) {
        mantissa = 10 * mantissa + (code - zero);
        if (mantissa > 0) digits++;
        if (isFraction) decimals++;
        else whole++;
      } else if (code === point) isFraction = true;
      else if (isExponentSign(code)) break;
    }
    const end = i;
    const step = shift - decimals + (i < to ? this.#exponent(text, i, to) : 0);
    if (i === to) {
      this.exponentDigits = 0;
      this.hasPaddedExponent = false;
    }
    this.endsInZero = mantissa <= Number.MAX_SAFE_INTEGER && mantissa % 10 === 0;
    this.whole = whole;
    this.decimals = decimals;
    this.step = step;
    this.lead = step + Math.max(digits, 1) - 1;
    let size: number;
    // Up to 2^53 the mantissa is exact.
    if (mantissa > Number.MAX_SAFE_INTEGER || step < -22 || step > 22) {
      const signs = (isNegative ? 1 : 0) + (isFraction ? 1 : 0);
      const isPlain =
        shift === 0 && end === to && point === dot && to - from === whole + decimals + signs;
      size = isPlain
        ? Math.abs(Number(text.slice(from, to).replace("\u2212", "-")))
        : Number(`${text.slice(from, end).replace(/\D/g, "")}e${step}`);
    } else size = step < 0 ? mantissa / powers[-step]! : mantissa * powers[step]!;
    this.value = isNegative ? -size : size;
  }

  #exponent(text: string, from: number, to: number): number {
    // Behind a sign of multiplication stands a ten, which is none of the exponent's digits.
    let i = isLetter(text.charCodeAt(from)) ? from + 1 : text.indexOf("10", from) + 2;
    let sign = 1;
    let power = 0;
    let digits = 0;
    let isPadded = false;
    for (; i < to; i++) {
      const code = text.charCodeAt(i);
      if (code === minus || code === longMinus) sign = -1;
      else if (code >= zero && code <= zero + 9) {
        power = 10 * power + (code - zero);
        digits++;
        if (digits === 2 && power < 10) isPadded = true;
      }
    }
    this.exponentDigits = digits;
    this.hasPaddedExponent = isPadded;
    return sign * power;
  }
}

/** Whether a character is an E or a D. */
const isLetter = (code: number) => (code | 32) === 101 || (code | 32) === 100;

/** Whether an exponent begins: with E or D, or a sign of multiplication before a power of ten. */
const isExponentSign = (code: number) =>
  isLetter(code) || code === 120 || code === 215 || code === 42;
