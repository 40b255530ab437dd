import { isBlank, type Lines } from "./find-lines.ts";
import { plainNumber } from "./plain-number.ts";
import { readNumber } from "./read-number.ts";
import type { Fields, Rows } from "./rows.ts";

const blank = 32;
const tab = 9;

/**
 * Rows of a text without quotes. Nothing is cut out of it but what is asked for as text: a million rows of
 * numbers cost their bounds and no strings.
 */
export class PlainRows implements Rows, Fields {
  readonly line: Int32Array;
  readonly decimalComma: boolean;
  /** Fields of the row looked at. */
  count = 0;
  readonly #text: string;
  readonly #lines: Lines;
  readonly #delimiter: number;
  readonly #point: number;
  #from = new Int32Array(16);
  #to = new Int32Array(16);

  constructor(text: string, lines: Lines, delimiter: string, decimalComma: boolean) {
    this.#text = text;
    this.#lines = lines;
    this.#delimiter = delimiter.charCodeAt(0);
    this.#point = decimalComma ? 44 : 46;
    this.line = lines.line;
    this.decimalComma = decimalComma;
  }

  at(row: number): Fields {
    const start = this.#lines.start[row]!;
    const end = this.#lines.end[row]!;
    this.count = 0;
    if (this.#delimiter === blank) this.#cutAtBlanks(start, end);
    else this.#cutAtDelimiters(start, end);
    return this;
  }

  text(i: number): string {
    return this.#text.slice(this.#from[i]!, this.#to[i]!);
  }

  number(i: number): number | null {
    const text = this.#text;
    let from = this.#from[i]!;
    let to = this.#to[i]!;
    while (from < to && text.charCodeAt(from) === blank) from++;
    while (to > from && text.charCodeAt(to - 1) === blank) to--;
    if (from === to) return Number.NaN;
    return (
      plainNumber(text, from, to, this.#point) ??
      readNumber(text.slice(from, to), this.decimalComma)
    );
  }

  #cutAtDelimiters(start: number, end: number): void {
    const text = this.#text;
    const delimiter = this.#delimiter;
    let from = start;
    for (let i = start; i < end; i++) {
      if (text.charCodeAt(i) !== delimiter) continue;
      this.#add(from, i);
      from = i + 1;
    }
    this.#add(from, end);
  }

  #cutAtBlanks(start: number, end: number): void {
    const text = this.#text;
    let from = start;
    let last = end;
    while (from < last && isBlank(text.charCodeAt(from))) from++;
    while (last > from && isBlank(text.charCodeAt(last - 1))) last--;
    for (let i = from; i < last; i++) {
      if (!isBetween(text.charCodeAt(i))) continue;
      this.#add(from, i);
      while (isBetween(text.charCodeAt(i + 1))) i++;
      from = i + 1;
    }
    this.#add(from, last);
  }

  #add(from: number, to: number): void {
    if (this.count === this.#from.length) {
      this.#from = doubled(this.#from);
      this.#to = doubled(this.#to);
    }
    this.#from[this.count] = from;
    this.#to[this.count++] = to;
  }
}

const isBetween = (code: number): boolean => code === blank || code === tab;

function doubled(values: Int32Array): Int32Array<ArrayBuffer> {
  const out = new Int32Array(2 * values.length);
  out.set(values);
  return out;
}
