import { type Columns, columnKey } from "./find-columns.ts";
import { InputError } from "./input-error.ts";

/** What a column of readings holds. */
export type Quantity = "period_s" | "frequency_hz" | "time_error_s" | "rate";

const quantities: readonly Quantity[] = ["period_s", "frequency_hz", "time_error_s", "rate"];

/** Keys of units in which readings come, but are not understood here. */
const otherUnits =
  /^(m|u|µ|μ|n|p)s(ec)?$|^(min|h|day)$|^[kmg]hz$|^ppm$|^ppb$|^(m|µ|μ|u)?s_(day|d)$/;

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
  const { keys, width } = columns;
  if (wanted !== undefined) {
    const key = columnKey(wanted);
    const index = keys.indexOf(key);
    if (index >= 0) return asNamed(columns, index, file, line);
    // Without names a number counts the columns, and one of the four names says what the only one holds.
    const number = Number(wanted);
    if (Number.isInteger(number) && number >= 1 && number <= width) {
      return asNamed(columns, number - 1, file, line);
    }
    const quantity = quantityOf(key);
    if (keys.length === 0 && width === 1 && quantity !== null) return { index: 0, quantity };
    throw new InputError(file, line, `has no column "${wanted}"; ${there(columns)}`);
  }
  for (const quantity of quantities) {
    const index = keys.indexOf(quantity);
    if (index >= 0) return { index, quantity };
  }
  const close = width === 1 ? 0 : keys.findIndex((key) => inOtherUnit(key) !== null);
  if (close >= 0) return asNamed(columns, close, file, line);
  throw new InputError(
    file,
    line,
    `does not say which column holds the readings; name one of period_s, frequency_hz, time_error_s, rate, or give --column; ${there(columns)}`,
  );
}

/** A column by its place; not one whose name says that its numbers are in another unit. */
function asNamed(columns: Columns, index: number, file: string, line: number): ChosenColumn {
  const key = columns.keys[index] ?? "";
  const quantity = quantityOf(key);
  const wanted = quantity === null ? inOtherUnit(key) : null;
  if (wanted === null) return { index, quantity };
  const right = wanted === "rate" ? "rate (f/f₀ − 1, without a unit)" : wanted;
  throw new InputError(
    file,
    line,
    `"${columns.names[index]}" is in another unit than ${right}; convert the numbers, and name their column so`,
  );
}

/** The quantity meant by a name that gives it in another unit than the one used here. */
function inOtherUnit(key: string): Quantity | null {
  const [, what, unit] = /^(period|freq(?:uency)?|time_error|tie|rate)_(.*)$/.exec(key) ?? [];
  if (what === undefined || !otherUnits.test(unit!)) return null;
  if (what === "rate" || what === "period") return what === "rate" ? what : "period_s";
  return what.startsWith("freq") ? "frequency_hz" : "time_error_s";
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

/**
 * The columns there are, for a message.
 *
 * @param columns - of the text
 * @returns such as `it has "nr", "period_s"`
 */
export function there({ names, width, above }: Columns): string {
  if (names.length > 0) return `it has ${names.map((n) => `"${n}"`).join(", ")}`;
  const columns = `${width} column${width === 1 ? "" : "s"}`;
  // One field above the data is a title.
  return above > 1
    ? `it has ${columns}, and ${above} names in the line above them; every column needs a name, which may be empty`
    : `it has ${columns} without names`;
}
