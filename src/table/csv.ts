import { stringify } from "csv-stringify/sync";
import { csvNumber } from "./csv-number.ts";

/** What a cell may hold; null is an empty cell. */
export type CsvValue = string | number | boolean | null;

/** Rows handed to the writer at a time: large enough to pay for the call, small enough to stream. */
const rowsPerBatch = 4096;

/**
 * Rows as CSV text by RFC 4180: comma, CRLF after every row, quotes where a cell needs them, no header.
 *
 * A cell that holds a lone carriage return or line feed is quoted as well, since many readers take either
 * for the end of a row. Numbers as in `csvNumber`, booleans as true and false, null as an empty cell.
 *
 * @param rows - cells row by row
 * @returns the text; empty for no rows
 *
 * Source: RFC 4180, section 2. Exact case: [["a,b", 'c"d', null]] gives `"a,b","c""d",` and CRLF.
 */
export function csvRows(rows: readonly (readonly CsvValue[])[]): string {
  return stringify(rows as CsvValue[][], {
    record_delimiter: "\r\n",
    quoted_match: /[\r\n]/,
    cast: {
      number: csvNumber,
      boolean: (value) => (value ? "true" : "false"),
    },
  });
}

/**
 * The header row of a CSV file.
 *
 * @param columns - the columns, in the order in which they stand in the file
 * @returns one row of names with its CRLF
 *
 * Source: RFC 4180, section 2, rule 3. Exact case: columns a and b give `a,b` and CRLF.
 */
export function csvHeader(columns: readonly { readonly name: string }[]): string {
  return csvRows([columns.map((column) => column.name)]);
}

/**
 * A whole CSV file in pieces: the header, then the rows in batches, so that a file of any length streams.
 *
 * @param columns - the columns, in the order of the cells
 * @param rows - rows of cells, as many as there are columns
 * @returns pieces of text; joined they are the file
 * @throws RangeError if a row has more or fewer cells than there are columns
 *
 * Source: RFC 4180, section 2, rule 4 (the same number of fields throughout the file).
 */
export function* csvText(
  columns: readonly { readonly name: string }[],
  rows: Iterable<readonly CsvValue[]>,
): Generator<string, void, undefined> {
  yield csvHeader(columns);
  let batch: (readonly CsvValue[])[] = [];
  for (const row of rows) {
    if (row.length !== columns.length) {
      throw new RangeError(
        `csvText: a row must have ${columns.length} cells (${columns.map((column) => column.name).join(", ")}), got ${row.length}`,
      );
    }
    batch.push(row);
    if (batch.length === rowsPerBatch) {
      yield csvRows(batch);
      batch = [];
    }
  }
  if (batch.length > 0) {
    yield csvRows(batch);
  }
}
