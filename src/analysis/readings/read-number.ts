const withPoint = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?$/;
const withComma = /^[-+]?(?:\d+,?\d*|,\d+)(?:[eE][-+]?\d+)?$/;
const missing = new Set(["", "nan", "na", "n/a", "#n/a", "null", "none", "-", "--", "."]);

/**
 * Whether a field says that there is no value.
 *
 * @param field - text of the field
 * @returns true for an empty field and for the usual words (NaN, NA, null, none, a dash)
 */
export function isMissing(field: string): boolean {
  return missing.has(field.trim().toLowerCase());
}

/**
 * Reads one number, and nothing that is only almost one.
 *
 * @param field - text of the field; blanks around it do not matter
 * @param decimalComma - whether a comma stands for the decimal point
 * @returns the number, finite; NaN for a missing value; null if it is neither
 *
 * Exact case: "1,5e-9" with decimalComma is 1.5e-9, without it null; "1 000", "0x10" and "1.2.3" are null.
 */
export function readNumber(field: string, decimalComma: boolean): number | null {
  const text = field.trim();
  if ((decimalComma ? withComma : withPoint).test(text)) {
    const value = Number(decimalComma ? text.replace(",", ".") : text);
    return Number.isFinite(value) ? value : null;
  }
  return isMissing(text) ? Number.NaN : null;
}
