import { type Columns, columnKey } from "./find-columns.ts";
import { InputError } from "./input-error.ts";

/** What a column of readings holds. */
export type Quantity = "period_s" | "frequency_hz" | "time_error_s" | "rate";

const quantities: readonly Quantity[] = ["period_s", "frequency_hz", "time_error_s", "rate"];

/** A column of readings. */
export interface ChosenColumn {
  readonly index: number;
  /** What it holds; null where only its values can tell. */
  readonly quantity: Quantity | null;
}

/**
 * Chooses the column with the readings.
 *
 * @param columns - of the text
 * @param wanted - name of the column, or undefined: the first of period_s, frequency_hz, time_error_s, rate
 * @param file - its name, for messages
 * @param line - line with the names, or of the first data
 * @returns the column, and what it holds
 * @throws InputError if it is not there, or which one is not said
 */
export function chooseColumn(
  columns: Columns,
  wanted: string | undefined,
  file: string,
  line: number,
): ChosenColumn {
  const { keys, names, width } = columns;
  if (wanted !== undefined) {
    const key = columnKey(wanted);
    const index = keys.indexOf(key);
    if (index >= 0) return { index, quantity: quantityOf(key) };
    // Without names a number counts the columns, and one of the four names says what the only one holds.
    const number = Number(wanted);
    if (Number.isInteger(number) && number >= 1 && number <= width) {
      return { index: number - 1, quantity: quantityOf(keys[number - 1] ?? "") };
    }
    const quantity = quantityOf(key);
    if (keys.length === 0 && width === 1 && quantity !== null) return { index: 0, quantity };
    throw new InputError(file, line, `has no column "${wanted}"; ${there(names, width)}`);
  }
  for (const quantity of quantities) {
    const index = keys.indexOf(quantity);
    if (index >= 0) return { index, quantity };
  }
  if (width === 1) return { index: 0, quantity: quantityOf(keys[0] ?? "") };
  throw new InputError(
    file,
    line,
    `does not say which column holds the readings; name one of period_s, frequency_hz, time_error_s, rate, or give --column; ${there(names, width)}`,
  );
}

/** What a name says its column holds, in the units used here. */
function quantityOf(key: string): Quantity | null {
  const known = quantities.find((q) => q === key);
  if (known !== undefined) return known;
  if (/^freq(uency)?$|^freq_hz$/.test(key)) return "frequency_hz";
  if (/^period$/.test(key)) return "period_s";
  if (/^time_error$|^tie_s$/.test(key)) return "time_error_s";
  if (/^fractional_frequency$/.test(key)) return "rate";
  return null;
}

function there(names: readonly string[], width: number): string {
  return names.length > 0
    ? `it has ${names.map((n) => `"${n}"`).join(", ")}`
    : `it has ${width} column${width === 1 ? "" : "s"} without names`;
}
