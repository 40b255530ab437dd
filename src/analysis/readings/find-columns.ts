import { InputError } from "./input-error.ts";
import { type Fields, type Rows, textsOf } from "./rows.ts";

/** Where the data begin, and what the columns are called. */
export interface Columns {
  /** Names as written, without blanks around them; empty where the text has none. */
  readonly names: readonly string[];
  /** The same in the form they are looked up: lower case, blanks and brackets as underscores. */
  readonly keys: readonly string[];
  /** Row of the first data. */
  readonly firstRow: number;
  /** Fields of a data row. */
  readonly width: number;
  /** Fields of the line above the data; they are no names where there are more or fewer of them; 0 without one. */
  readonly above: number;
}

/**
 * Finds the line with the column names: the last one before the data that has as many fields as they have.
 * What stands above it are titles.
 *
 * @param rows - of the text
 * @param file - its name, for messages
 * @returns names and the first row of data
 * @throws InputError if there are no data
 *
 * Exact case: "Test of May", "period_s", "1.0" has the name period_s and data from row 2.
 */
export function findColumns(rows: Rows, file: string): Columns {
  const { line } = rows;
  if (line.length === 0) {
    throw new InputError(file, null, "holds no readings; expected at least one number a line");
  }
  let firstRow = 0;
  while (firstRow < line.length && !looksLikeData(rows.at(firstRow))) firstRow++;
  if (firstRow === line.length) {
    throw noData(rows, file);
  }
  const width = rows.at(firstRow).count;
  const above = firstRow > 0 ? textsOf(rows.at(firstRow - 1)) : [];
  const names = above.length === width ? above.map((name) => name.trim()) : [];
  return { names, keys: names.map(columnKey), firstRow, width, above: above.length };
}

/** What is wrong with a text without data, at the first of the lines at its end that look like the last. */
function noData(rows: Rows, file: string): InputError {
  const first = (row: number) => rows.at(row).text(0).trim();
  const isLikeData = (row: number) => /^[+-]?\d/.test(first(row));
  let row = rows.line.length - 1;
  while (row > 0 && isLikeData(row) && isLikeData(row - 1)) row--;
  const what = isDate(first(row))
    ? "a time stamp and no reading; expected a period, frequency, time error or rate beside it"
    : isLikeData(row)
      ? "no reading; expected a line of numbers such as 1.0000012 or 3e-9, thousands not set off"
      : "no reading; expected a line of numbers, below the names of the columns where there are any";
  const text = textsOf(rows.at(row)).join(" ").slice(0, 40);
  return new InputError(file, rows.line[row]!, `"${text}" is ${what}`);
}

/** A row of data has a number in it, and no name of a column. */
function looksLikeData(fields: Fields): boolean {
  let numbers = 0;
  let words = 0;
  for (let i = 0; i < fields.count; i++) {
    const value = fields.number(i);
    if (value !== null && !Number.isNaN(value)) numbers++;
    else if (value === null && !isDate(fields.text(i))) words++;
  }
  // A flag or a remark may stand beside the numbers, but most fields of a title are words.
  return numbers > 0 && numbers >= words;
}

/**
 * Whether a field is a time stamp of ISO 8601.
 *
 * @param field - text of the field
 * @returns true for a calendar date, with or without a time of day
 */
export function isDate(field: string): boolean {
  return /^\s*\d{4}-\d{2}-\d{2}(?:[T ]\d{2}:\d{2}|\s*$)/.test(field);
}

/** Whether a field is a calendar date with a time of day. */
export function isMoment(field: string): boolean {
  return isDate(field) && field.includes(":");
}

/**
 * The form in which column names are compared.
 *
 * @param name - as written
 * @returns lower case, with one underscore for every run of other characters than letters and digits
 *
 * Exact case: "Period [s]" gives period_s.
 */
export function columnKey(name: string): string {
  return name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "_")
    .replace(/^_|_$/g, "");
}
