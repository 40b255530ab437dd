/** Readings that cannot be understood: where, what, and what would be right. */
export class InputError extends Error {
  /** Name of the file, or of the stream. */
  readonly file: string;
  /** Line counted from 1, or null where it is about the file as a whole. */
  readonly line: number | null;

  constructor(file: string, line: number | null, message: string) {
    super(`${file}${line === null ? "" : `:${line}`}: ${message}`);
    this.name = "InputError";
    this.file = file;
    this.line = line;
  }
}
