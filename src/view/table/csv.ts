import { stringify } from "csv-stringify/sync";
import { csvNumber } from "./csv-number.ts";

/** What a cell may hold; null is an empty cell. */
export type CsvValue = string | number | boolean | null;

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
