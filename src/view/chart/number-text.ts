const superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/**
 * A power of ten as it is printed: `1`, `10`, and else with a raised exponent.
 *
 * @param exponent - integer
 * @returns such as 10⁻¹²
 *
 * Exact case: 0 gives `1`, 1 gives `10`, -12 gives `10⁻¹²`.
 */
export function powerOfTen(exponent: number): string {
  if (exponent === 0 || exponent === 1) {
    return exponent === 0 ? "1" : "10";
  }
  const digits = `${Math.abs(exponent)}`.replace(/\d/g, (digit) => superscripts[Number(digit)]!);
  return `10${exponent < 0 ? "⁻" : ""}${digits}`;
}

/**
 * A number in fixed notation with a true minus sign and narrow no-break spaces between groups of three digits.
 *
 * @param value - finite number
 * @param decimals - digits after the point; integer, 0 to 20
 * @returns such as −12 345.6 (four digits before the point stay together)
 *
 * Source: ISO 80000-1, 7.3.1 (groups of three, small space). Exact case: (12345.6, 1) gives `12 345.6`.
 */
export function fixedText(value: number, decimals: number): string {
  const [whole, fraction] = Math.abs(value).toFixed(decimals).split(".") as [string, string?];
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, "\u202f") : whole;
  const text = fraction === undefined ? grouped : `${grouped}.${fraction}`;
  return value < 0 && /[1-9]/.test(text) ? `−${text}` : text;
}

/**
 * A number that was set, not measured, as it was set: no digits after the last that says something.
 *
 * @param value - finite number
 * @returns such as 50, 0.025 or 2.5·10⁻⁹; twelve significant digits at most
 *
 * Exact case: 4.5 gives `4.5`, where `numberText` to three digits gives `4.50`.
 */
export function givenText(value: number): string {
  const [mantissa] = Math.abs(Number(value.toPrecision(12)))
    .toExponential()
    .split("e");
  return numberText(value, mantissa!.replace(".", "").length);
}

/**
 * A number to a few significant digits, as a person writes it: plain within reach, else with a power of ten.
 *
 * @param value - finite number
 * @param digits - significant digits; integer, 1 to 15
 * @returns such as 0.025, 1200 or 3.2·10⁻⁹
 *
 * Exact case: (3.2e-9, 2) gives `3.2·10⁻⁹`.
 */
export function numberText(value: number, digits: number): string {
  if (value === 0) {
    return "0";
  }
  const [mantissa, exponentText] = Math.abs(value)
    .toExponential(digits - 1)
    .split("e") as [string, string];
  const exponent = Number(exponentText);
  const sign = value < 0 ? "−" : "";
  if (exponent >= -3 && exponent < 5) {
    return sign + fixedText(Number(`${mantissa}e${exponent}`), Math.max(0, digits - 1 - exponent));
  }
  const factor = Number(mantissa) === 1 ? "" : `${mantissa}·`;
  return `${sign}${factor}${powerOfTen(exponent)}`;
}
