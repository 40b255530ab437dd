/** What the cells of a column are, in the words of Frictionless Table Schema v2. */
export type ColumnType = "integer" | "number" | "string" | "boolean";

/** A column of a table: what a reader of the file needs to know of it. */
export interface Column {
  /** Name in the header; a quantity with a unit ends in it. */
  readonly name: string;
  readonly type: ColumnType;
  /** Short name for people, with the unit in brackets. */
  readonly title: string;
  readonly description: string;
  /** UCUM code of the unit; `1` for a pure number, null where the cells are no quantity. */
  readonly unit: string | null;
  /** Whether every row has a value. */
  readonly required: boolean;
  /** The words the column may hold, where they are few. */
  readonly words?: readonly string[];
}
