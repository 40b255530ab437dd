/** Fields of one row of a text. */
export interface Fields {
  readonly count: number;
  /** Field as written; i from 0 to count − 1. */
  text(i: number): string;
  /** Field as a number: finite, NaN where it is missing, null if it is neither. */
  number(i: number): number | null;
}

/** Rows of a text, each cut into fields when it is looked at. */
export interface Rows {
  /** Line of each row, from 1. */
  readonly line: Int32Array;
  /** Whether a comma stands for the decimal point. */
  readonly decimalComma: boolean;
  /** Fields of a row, counted from 0; they hold until the next call. */
  at(row: number): Fields;
}

/** All fields of a row as written. */
export function textsOf(fields: Fields): string[] {
  return Array.from({ length: fields.count }, (_, i) => fields.text(i));
}
