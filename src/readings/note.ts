/** What a note about a record is about. */
export type NoteCode =
  | "skipped_line"
  | "cut_line"
  | "repeated_header"
  | "gap"
  | "clock_change"
  | "assumed_period"
  | "assumed_gate"
  | "assumed_dead_time"
  | "stamps"
  | "temperature"
  | "pictures"
  | "agreement"
  | "fit";

/**
 * A note.
 *
 * @param code - what it is about
 * @param message - for people
 * @param line - line in the file, from 1; null where it is about the record as a whole
 * @param reading - from 0; null likewise
 */
export function noteOf(
  code: NoteCode,
  message: string,
  line: number | null = null,
  reading: number | null = null,
): Note {
  return { code, line, reading, message };
}

/** Something to be told about a record: what was passed over, found, or assumed because nothing said it. */
export interface Note {
  readonly code: NoteCode;
  /** Line in the file, from 1; null where it is about the record as a whole. */
  readonly line: number | null;
  /** Reading at which it is or, where something lies between readings, the one after it, from 0; null likewise. */
  readonly reading: number | null;
  readonly message: string;
}
