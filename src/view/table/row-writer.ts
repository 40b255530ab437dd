import type { Column } from "./column.ts";
import { csvHeader } from "./csv.ts";
import { numericRows } from "./numeric-rows.ts";

/** Rows written at a time. */
const rowsAtOnce = 512;

/** Gathers the rows of a table in blocks and writes them as CSV text, the header first. */
export class RowWriter {
  /** The columns of numbers, to be filled at the index that `next` gives. */
  readonly numbers: readonly Float64Array[];
  /** The last column: codes of words. */
  readonly codes = new Uint8Array(rowsAtOnce);
  /** Rows taken so far. */
  rows = 0;
  private size = 0;
  private readonly write: (text: string) => void;
  private readonly rowsOf: (from: number, to: number) => string;

  /**
   * @param write - takes the text, piece by piece
   * @param columns - of the table; the last one holds words
   * @param labels - the words, by code
   * @param optional - places of the columns in which NaN is an empty cell
   */
  constructor(
    write: (text: string) => void,
    columns: readonly Column[],
    labels: readonly string[],
    optional: readonly number[],
  ) {
    this.write = write;
    this.numbers = columns.slice(0, -1).map(() => new Float64Array(rowsAtOnce));
    this.rowsOf = numericRows(
      this.numbers.map((column, i) => (optional.includes(i) ? { optional: column } : column)),
      { codes: this.codes, labels },
    );
    write(csvHeader(columns));
  }

  /** Index of the row to be filled next; full blocks are written first. */
  next(): number {
    if (this.size === rowsAtOnce) this.flush();
    this.rows++;
    return this.size++;
  }

  /** Writes what is still gathered. */
  flush(): void {
    if (this.size > 0) this.write(this.rowsOf(0, this.size));
    this.size = 0;
  }
}
