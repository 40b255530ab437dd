import { csvRows } from "./csv.ts";
import { csvNumber } from "./csv-number.ts";

/** The last column, which holds one of a few words: row i holds `labels[codes[i]]`. */
export interface LabelColumn {
  readonly codes: Uint8Array;
  readonly labels: readonly string[];
}

/** A column of numbers in which NaN stands for an empty cell. */
export interface OptionalColumn {
  readonly optional: Float64Array;
}

/** A column of numbers for the bulk writer; in a plain Float64Array NaN is written as NaN. */
export type NumberColumn = Float64Array | OptionalColumn;

const numbersOf = (column: NumberColumn): Float64Array =>
  column instanceof Float64Array ? column : column.optional;

/** A word as it stands in the file, quotes included. */
const quoted = (label: string): string => csvRows([[label, 0]]).slice(0, -",0\r\n".length);

/**
 * A writer of bulk columns as CSV rows, byte for byte what `csvRows` writes for the same cells, in a fraction of the time.
 *
 * @param columns - one or more columns of numbers, of equal length N
 * @param words - the last column, of the same length
 * @returns writes the rows from `from` to before `to`, each with its CRLF; 0 <= from <= to <= N. Some hundred rows a call
 *   are best: the text of more outlives the first look of the garbage collector
 * @throws RangeError if columns differ in length; the writer, if a code has no label or the rows lie outside
 *
 * Source: RFC 4180, section 2. Exact case: a column [0.5] and the word `drive` give `0.5,drive` and CRLF.
 */
export function numericRows(
  columns: readonly NumberColumn[],
  words: LabelColumn,
): (from: number, to: number) => string {
  const numbers = columns.map(numbersOf);
  const isOptional = columns.map((column) => "optional" in column);
  const { codes, labels } = words;
  const rows = codes.length;
  for (const { length } of numbers) {
    if (length !== rows) {
      throw new RangeError(
        `numericRows: columns must be of equal length, got ${length} and ${rows}`,
      );
    }
  }
  const ends = labels.map((label) => `,${quoted(label)}\r\n`);
  return (from, to) => {
    if (!Number.isInteger(from) || !Number.isInteger(to) || from < 0 || to < from || to > rows) {
      throw new RangeError(
        `numericRows: from and to must be integers with 0 <= from <= to <= ${rows}, got ${from} and ${to}`,
      );
    }
    let text = "";
    for (let row = from; row < to; row++) {
      // Loops over arrays of one shape: a closure for every column would cost a fifth more.
      for (let column = 0; column < numbers.length; column++) {
        if (column > 0) text += ",";
        const value = numbers[column]![row]!;
        if (!(isOptional[column]! && Number.isNaN(value))) text += csvNumber(value);
      }
      text += ends[codes[row]!] ?? refuseCode(codes[row]!, labels.length, row);
    }
    return text;
  };
}

function refuseCode(code: number, labels: number, row: number): never {
  throw new RangeError(
    `numericRows: codes must be below the ${labels} labels, got ${code} in row ${row}`,
  );
}
