/**
 * Writes a value with its expanded uncertainty: `-1.28 ± 0.90`, `(2.00 ± 0.31)e-11`.
 *
 * The uncertainty is rounded to two significant digits, and the value to the same place. Where both are below 1e-3, or
 * the larger is 1e6 or more, a power of ten is taken out. Digits in parentheses would stand for a standard uncertainty
 * (JCGM 100:2008, 7.2.2), and so there are none.
 *
 * @param value - the result; any unit
 * @param half - half-width of its interval, most often at 95 %, which the caller says; same unit, >= 0; with 0 the
 *   value stands alone
 * @param sign - write a plus sign before a positive value
 * @returns the result without unit
 * @throws RangeError if value is not finite, or half negative or not finite
 *
 * Source: JCGM 100:2008 (GUM), 7.2.4, "(100,021 47 ± 0,000 79) g", and 7.2.6 on the digits to keep. Exact case: a half of
 * 0.0995 counts as 0.10.
 */
export function plusMinus(value: number, half: number, sign = false): string {
  if (!Number.isFinite(value)) {
    throw new RangeError(`plusMinus: value must be finite, got ${value}`);
  }
  if (!(half >= 0 && half < Infinity)) {
    throw new RangeError(`plusMinus: half must be >= 0 and finite, got ${half}`);
  }
  const plus = sign && value > 0 ? "+" : "";
  if (half === 0) return plus + String(value);
  const place = exponentOf(half, 1) - 1;
  const size = Math.max(Math.abs(value), half);
  const isPlain = size >= 1e-3 && size < 1e6;
  const exponent = isPlain ? 0 : Math.max(exponentOf(size, 15), place + 1);
  const digitsAfter = exponent - place;
  const text = (number: number) => {
    const scaled = Number(shifted(number, -exponent));
    const rounded =
      digitsAfter >= 0
        ? scaled.toFixed(Math.min(100, digitsAfter))
        : String(Number(`${Math.round(Number(shifted(scaled, digitsAfter)))}e${-digitsAfter}`));
    return rounded.replace(/^-(0(\.0*)?)$/, "$1");
  };
  const isZero = !/[1-9]/.test(text(value));
  const both = `${isZero ? "" : plus}${text(value)} ± ${text(Number(half.toExponential(1)))}`;
  return isPlain ? both : `(${both})e${exponent}`;
}

const exponentOf = (value: number, digits: number): number =>
  Number(value.toExponential(digits).split("e")[1]);

/** A number times a power of ten, by its digits. */
function shifted(value: number, by: number): string {
  if (by === 0) return String(value);
  const [mantissa, exponent] = value.toExponential(16).split("e");
  return `${mantissa}e${Number(exponent) + by}`;
}
