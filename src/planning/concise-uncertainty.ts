/** Two significant digits of u, and the decimal exponent of the last of them; 0.0995 counts as 0.10. */
function twoDigits(u: number): { digits: string; place: number } {
  const [mantissa = "", exponent] = u.toExponential(1).split("e");
  return { digits: mantissa.replace(".", ""), place: Number(exponent) - 1 };
}

/**
 * Writes a value with its uncertainty in parentheses, on its last digits: `100.02147(35)`.
 *
 * The uncertainty is rounded to two significant digits and the value to the same place; the digits in parentheses
 * stand for the last digits of the value. Where the value would need many zeros (its size, or that of the
 * uncertainty, below 1e-3; or a two-digit uncertainty of 100 and more) a power of ten is taken out: `2.00(31)e-11`.
 *
 * @param value - the result; any unit
 * @param uncertainty - standard or expanded uncertainty, the caller says which; same unit, >= 0; with 0 the
 *   value is written in full
 * @param sign - write a plus sign before a positive value
 * @returns the result in concise form, without unit
 * @throws RangeError if value is not finite, or uncertainty negative or not finite
 *
 * Source: JCGM 100:2008 (GUM), 7.2.2, second form, and 7.2.6 on the digits to keep.
 */
export function conciseUncertainty(value: number, uncertainty: number, sign = false): string {
  if (!Number.isFinite(value)) {
    throw new RangeError(`conciseUncertainty: value must be finite, got ${value}`);
  }
  if (!(uncertainty >= 0 && uncertainty < Infinity)) {
    throw new RangeError(
      `conciseUncertainty: uncertainty must be >= 0 and finite, got ${uncertainty}`,
    );
  }
  const plus = sign && value > 0 ? "+" : "";
  if (uncertainty === 0) return plus + String(value);
  const { digits, place } = twoDigits(uncertainty);
  const size = Math.max(Math.abs(value), uncertainty);
  if (size >= 1e-3 && place <= 0) {
    const rounded = value.toFixed(Math.min(100, -place));
    const negativeZero = /^-0(\.0*)?$/.test(rounded);
    const shown = negativeZero ? rounded.slice(1) : rounded;
    return `${plus}${shown}(${digits})`;
  }
  const exponent = Math.max(Number(size.toExponential(15).split("e")[1]), place + 1);
  const scaled = Number(`${value.toExponential(16).split("e")[0]}e${exponentOf(value) - exponent}`);
  return `${plus}${scaled.toFixed(Math.min(100, exponent - place))}(${digits})e${exponent}`;
}

const exponentOf = (value: number): number => Number(value.toExponential(16).split("e")[1]);
