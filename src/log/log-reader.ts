import { InputError, type Note, noteOf } from "../readings/index.ts";
import { detectLayout, isComment, type Layout } from "./detect-layout.ts";
import { LineEnds } from "./line-ends.ts";
import type { Item } from "./line-scanner.ts";
import { LineShapes } from "./line-shapes.ts";
import { LineSplitter, longestLine } from "./line-splitter.ts";
import { type LineKind, LogColumns } from "./log-columns.ts";
import type { LogOptions } from "./log-options.ts";
import { type MadeReadings, makeReadings } from "./make-readings.ts";
import { type Row, scanRow } from "./scan-row.ts";
import { shown } from "./shown.ts";

/** Lines by which the layout is found; where they do not tell it, twice as many, and so on. */
const sampled = 500;
/** Lines that are told one by one. */
const told = 3;
/** Lines after the last reading that may be a summary. */
const footer = 20;
/** Words of a comment that say that a run begins. */
const runWords = /\b(?:run|session|series|restart\w*|start\w*|begin\w*|neustart|messung)\b/i;

/**
 * Reads a log as it comes, in pieces of any size; nothing depends on how it is cut up.
 *
 * First the layout is found by the first lines: what parts the columns, the decimal sign, which column is what, units.
 * Then every line is read by it. A line that does not fit is skipped and told.
 */
export class LogReader {
  readonly #options: LogOptions;
  readonly #lines = new LineSplitter((text, from, to, line) => this.#line(text, from, to, line));
  #waiting: { text: string; line: number }[] = [];
  #enough = sampled;
  #why = "";
  #layout: Layout | null = null;
  #columns: LogColumns | null = null;
  #shapes = new LineShapes<LineKind>();
  /** Lines before the readings, by which a header is known when it comes again. */
  readonly #preamble = new Set<string>();
  readonly #notes: Note[] = [];
  readonly #skipped: { line: number; text: string }[] = [];
  /** Lines skipped: before the first reading, in all, and since the last reading. */
  #before = 0;
  #junk = 0;
  #sinceReading = 0;
  readonly #joins: number[] = [];
  /** Readings before the header that came last. */
  #headerAt = 0;
  readonly #ends = new LineEnds();

  constructor(options: LogOptions) {
    this.#options = options;
  }

  /** Takes further bytes of the log. */
  add(bytes: Uint8Array): void {
    this.#lines.add(bytes);
  }

  /**
   * The readings of all lines that are ended so far.
   *
   * @throws InputError if they cannot be understood (yet)
   */
  soFar(): MadeReadings {
    if (this.#layout !== null) return this.#made();
    const reader = new LogReader(this.#options);
    reader.#waiting = [...this.#waiting];
    return reader.#finished();
  }

  /**
   * The readings, when nothing more will come. A last line without its end is taken where it is sure to be whole.
   *
   * @throws InputError with the line, what is wrong there, and what would be right
   */
  end(): MadeReadings {
    const { text, line } = this.#lines.end();
    const isRest = text.trim() !== "";
    // Of a line alone nothing else tells whether it is whole.
    if (
      isRest &&
      this.#layout === null &&
      this.#waiting.every((w) => isComment(w.text) || !/\d/.test(w.text))
    ) {
      this.#waiting.push({ text, line });
      this.#tell(
        "cut_line",
        line,
        null,
        `the only line with a number (${line}) has no end; whether it is whole cannot be told`,
      );
    } else if (isRest) {
      if (this.#layout === null) this.#begin();
      this.#cutLine(text, line);
    }
    return this.#finished();
  }

  #finished(): MadeReadings {
    if (this.#layout === null) this.#begin();
    if (this.#layout === null) throw this.#noLayout();
    return this.#made();
  }

  #noLayout(): InputError {
    const first =
      this.#waiting.find((w) => !isComment(w.text) && /\d/.test(w.text)) ?? this.#waiting.at(-1);
    return new InputError(
      this.#options.file,
      first?.line ?? null,
      first === undefined || !this.#why.startsWith("holds no")
        ? this.#why || "holds no readings; expected at least one number a line"
        : `${shown(first.text)} is no reading; expected a line of numbers such as 1.0000012 or 3e-9 s, below the names of the columns where there are any`,
    );
  }

  #line(text: string, from: number, to: number, line: number): void {
    let start = from;
    while (start < to && isBlank(text.charCodeAt(start))) start++;
    if (start === to) return;
    if (this.#layout !== null) {
      this.#read(text, from, to, line);
      return;
    }
    this.#waiting.push({ text: text.slice(from, to), line });
    if (this.#waiting.length >= this.#enough) {
      this.#enough *= 2;
      this.#begin();
    }
  }

  /** Finds the layout, and reads by it what waited for it. */
  #begin(): void {
    const { layout, why } = detectLayout(
      this.#waiting.map(({ text }) => text),
      this.#options,
    );
    this.#why = why;
    if (layout === null) return;
    this.#layout = layout;
    this.#columns = new LogColumns(layout);
    const waited = this.#waiting;
    this.#waiting = [];
    for (const { text, line } of waited) this.#read(text, 0, text.length, line);
  }

  #read(text: string, from: number, to: number, line: number): void {
    const columns = this.#columns!;
    const known = this.#shapes.find(text, from, to);
    if (known !== null) {
      const taken = columns.take(text, this.#shapes.spans, known, line);
      if (taken === true) this.#wasRead(text, from, to);
      else this.#other(text.slice(from, to), line, null, taken === "no size");
      return;
    }
    const written = text.slice(from, to);
    const isLine = to - from <= longestLine && !isComment(written);
    const row = isLine ? scanRow(written, this.#layout!.format) : null;
    const found = row === null ? null : columns.match(row);
    const taken = found !== null && columns.take(written, found.spans, found.kind, line);
    if (taken !== true) {
      this.#other(written, line, row, taken === "no size");
      return;
    }
    this.#shapes.remember(written, 0, written.length, found!.spans, found!.kind);
    this.#wasRead(written, 0, written.length);
    if (found!.mark === "") return;
    const message = `line ${line} has no reading but ${shown(found!.mark)}; its place is kept`;
    this.#tell("skipped_line", line, columns.count - 1, message);
  }

  #wasRead(text: string, from: number, to: number): void {
    this.#sinceReading = 0;
    this.#ends.learn(text, from, to);
  }

  /** A line that is no reading: above them, a comment, a header again, or junk. */
  #other(text: string, line: number, row: Row | null, isPlaced: boolean): void {
    const columns = this.#columns!;
    const key = text.trim();
    const comment = isComment(text);
    if (columns.count === 0) {
      if (this.#preamble.size < sampled) this.#preamble.add(key);
      if (comment || this.#layout!.names.includes(key)) return;
      this.#before++;
    } else {
      const isAgain = this.#preamble.has(key) && /\p{L}/u.test(key);
      if (isAgain || (comment && runWords.test(text))) {
        // What stands before every reading is a prompt.
        const isPrompt = columns.count - this.#headerAt < 2;
        this.#headerAt = columns.count;
        if (isPrompt) return;
        this.#joins.push(columns.count);
        this.#tell(
          "repeated_header",
          line,
          columns.count,
          `line ${line} begins another run: ${shown(text)}`,
        );
        return;
      }
      if (comment) return;
      this.#sinceReading++;
      if (!isPlaced && (row === null || !row.items.some(isNumber))) columns.keepPlace(text, line);
    }
    this.#junk++;
    if (this.#skipped.length < told) this.#skipped.push({ line, text });
  }

  /** The last line, without its end: taken where it ends as all others do, or has all digits that a double holds. */
  #cutLine(text: string, line: number): void {
    const isWhole =
      this.#ends.fit(text, this.#layout?.format.decimal ?? ".") ||
      (this.#columns?.digitsAtEnd(text) ?? false);
    const before = this.#columns?.count ?? 0;
    if (isComment(text)) return;
    if (this.#layout !== null && isWhole) {
      this.#read(text, 0, text.length, line);
      if (this.#columns!.count > before) {
        this.#tell(
          "cut_line",
          line,
          before,
          `the last line (${line}) has no end; it ends as the others do, and was taken`,
        );
        return;
      }
    }
    this.#tell(
      "cut_line",
      line,
      null,
      `the last line (${line}) has no end and was dropped: ${shown(text)}`,
    );
  }

  #tell(code: Note["code"], line: number, reading: number | null, message: string): void {
    this.#notes.push(noteOf(code, message, line, reading));
  }

  #made(): MadeReadings {
    const columns = this.#columns!;
    const { file } = this.#options;
    const within = this.#junk - this.#before - Math.min(this.#sinceReading, footer);
    if (columns.count === 0) {
      const first = this.#skipped[0];
      throw new InputError(
        file,
        first?.line ?? null,
        `${first === undefined ? "it" : shown(first.text)} holds no readings: there is no such date, time or number`,
      );
    }
    if (within > 0.1 * (within + columns.count)) {
      const first = this.#skipped.map(({ line, text }) => `line ${line} ${shown(text)}`).join(", ");
      throw new InputError(
        file,
        this.#skipped[0]?.line ?? null,
        `${within} of ${within + columns.count} lines are no readings, more than a tenth; the first are ${first}; comment them out with #, or give --column`,
      );
    }
    const skips = this.#skipped.map(({ line, text }) =>
      noteOf("skipped_line", `line ${line} is no reading and was skipped: ${shown(text)}`, line),
    );
    const more = this.#junk - skips.length;
    if (more > 0) {
      skips.push(
        noteOf("skipped_line", `${more} more line${more === 1 ? " was" : "s were"} skipped`),
      );
    }
    return makeReadings(columns, this.#layout!, this.#options, {
      notes: [...skips, ...this.#notes],
      joins: this.#joins,
      skipped: this.#junk,
    });
  }
}

const isBlank = (code: number) => code === 32 || (code >= 9 && code <= 13) || code === 0xa0;

const isNumber = ({ kind }: Item) => kind === "number";

/** Bytes fed at once. */
const piece = 1 << 20;

/**
 * Reads a log whole.
 *
 * @param data - its bytes, or its text
 * @param options - what is said beside it
 * @returns the readings, and what is to be told about them
 * @throws InputError with the line, what is wrong there, and what would be right; nothing else
 *
 * Exact case: "period_s\n1.5\n" with nominalPeriod 1.5 is one reading of rate 0.
 */
export function readLog(data: Uint8Array | string, options: LogOptions): MadeReadings {
  const bytes = typeof data === "string" ? new TextEncoder().encode(data) : data;
  const reader = new LogReader(options);
  for (let from = 0; from < bytes.length; from += piece)
    reader.add(bytes.subarray(from, from + piece));
  return reader.end();
}
