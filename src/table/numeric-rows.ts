import { csvRows } from "./csv.ts";
import { csvNumber } from "./csv-number.ts";

/** A column that holds one of a few words: row i holds `labels[codes[i]]`. */
export interface LabelColumn {
  readonly codes: Uint8Array;
  readonly labels: readonly string[];
}

/** A column of numbers in which NaN stands for an empty cell. */
export interface OptionalColumn {
  readonly optional: Float64Array;
}

/** A column for the bulk writer; in a plain Float64Array NaN is written as NaN. */
export type BulkColumn = Float64Array | OptionalColumn | LabelColumn;

const noNumbers = new Float64Array(0);

const numbersOf = (column: BulkColumn): Float64Array =>
  column instanceof Float64Array ? column : "optional" in column ? column.optional : noNumbers;

const lengthOf = (column: BulkColumn): number =>
  "codes" in column ? column.codes.length : numbersOf(column).length;

/** A word as it stands in the file, quotes included. */
const quoted = (label: string): string => csvRows([[label, 0]]).slice(0, -",0\r\n".length);

/**
 * Bulk columns as CSV rows, byte for byte what `csvRows` writes for the same cells, in a third of the time.
 *
 * @param columns - two or more columns of equal length N (a lone empty cell would be an empty line)
 * @param from - first row; integer, 0 <= from
 * @param to - one past the last row; integer, from <= to <= N
 * @returns the rows, each with its CRLF; a few thousand rows a call keep the text small
 * @throws RangeError if columns differ in length, a code has no label, or the rows lie outside
 *
 * Source: RFC 4180, section 2. Exact case: columns [1] and [0.5] give `1,0.5` and CRLF.
 */
export function numericRows(columns: readonly BulkColumn[], from: number, to: number): string {
  const width = columns.length;
  if (width < 2) {
    throw new RangeError(`numericRows: columns must be two or more, got ${width}`);
  }
  const rows = lengthOf(columns[0]!);
  if (!Number.isInteger(from) || !Number.isInteger(to) || from < 0 || to < from || to > rows) {
    throw new RangeError(
      `numericRows: from and to must be integers with 0 <= from <= to <= ${rows}, got ${from} and ${to}`,
    );
  }
  for (const column of columns) {
    if (lengthOf(column) !== rows) {
      throw new RangeError(
        `numericRows: columns must be of equal length, got ${rows} and ${lengthOf(column)}`,
      );
    }
    if ("codes" in column) {
      requireLabels(column, from, to);
    }
  }
  // One loop over arrays of one shape each: a closure for every column would cost a fifth more.
  const numbers = columns.map(numbersOf);
  const codes = columns.map((column) => ("codes" in column ? column.codes : null));
  const words = columns.map((column) => ("codes" in column ? column.labels.map(quoted) : []));
  const isOptional = columns.map((column) => "optional" in column);
  let text = "";
  for (let row = from; row < to; row++) {
    for (let column = 0; column < width; column++) {
      if (column > 0) {
        text += ",";
      }
      const code = codes[column]!;
      if (code !== null) {
        text += words[column]![code[row]!]!;
        continue;
      }
      const value = numbers[column]![row]!;
      if (!(isOptional[column]! && Number.isNaN(value))) {
        text += csvNumber(value);
      }
    }
    text += "\r\n";
  }
  return text;
}

function requireLabels(column: LabelColumn, from: number, to: number): void {
  for (let row = from; row < to; row++) {
    if (column.codes[row]! >= column.labels.length) {
      throw new RangeError(
        `numericRows: codes must be below the ${column.labels.length} labels, got ${column.codes[row]} in row ${row}`,
      );
    }
  }
}
