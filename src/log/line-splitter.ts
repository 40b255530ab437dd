/** Longest line that may be a reading; characters. */
export const longestLine = 10_000;

/** Bytes that so many characters may take. */
const mostKept = 4 * (longestLine + 1);
const feed = 10;
const carriage = 13;

/** Takes one line: a text that holds it, its bounds there, and its number from 1. */
export type LineSink = (text: string, from: number, to: number, line: number) => void;

/**
 * Cuts bytes into lines, whatever ends them (CR, LF or both) and however they are chunked.
 *
 * UTF-8, with or without mark; a line that is none is taken as Latin-1, as old instruments write it. UTF-16 is known
 * by its mark, or by the zero byte beside its first character. Of a line too long to be a reading the beginning is kept.
 */
export class LineSplitter {
  readonly #sink: LineSink;
  #utf16: TextDecoder | null = null;
  /** Bytes before the encoding is known, and of the line that is not ended. */
  #kept: Uint8Array = none;
  #isKnown = false;
  #isAfterCarriage = false;
  #line = 1;

  constructor(sink: LineSink) {
    this.#sink = sink;
  }

  /** Takes further bytes. */
  add(bytes: Uint8Array): void {
    if (this.#isKnown) this.#take(this.#utf16 === null ? bytes : this.#toUtf8(bytes, true));
    else {
      this.#kept = joined(this.#kept, bytes);
      if (this.#kept.length >= 4) this.#begin();
    }
  }

  /** What stands after the last line end; its number. Nothing may be added afterwards. */
  end(): { text: string; line: number } {
    if (!this.#isKnown) this.#begin();
    if (this.#utf16 !== null) this.#take(this.#toUtf8(none, false));
    return { text: decodedLine(this.#kept), line: this.#line };
  }

  #begin(): void {
    this.#isKnown = true;
    const first = this.#kept;
    this.#kept = none;
    const [a, b, c] = first;
    const isLittle = (a === 0xff && b === 0xfe) || (first.length > 1 && a !== 0 && b === 0);
    const isBig = (a === 0xfe && b === 0xff) || (first.length > 1 && a === 0 && b !== 0);
    if (isLittle || isBig) {
      this.#utf16 = new TextDecoder(isLittle ? "utf-16le" : "utf-16be");
      this.#take(this.#toUtf8(first, true));
    } else this.#take(a === 0xef && b === 0xbb && c === 0xbf ? first.subarray(3) : first);
  }

  #toUtf8(bytes: Uint8Array, stream: boolean): Uint8Array {
    return new TextEncoder().encode(this.#utf16!.decode(bytes, { stream }));
  }

  #take(given: Uint8Array): void {
    if (given.length === 0) return;
    const bytes = this.#isAfterCarriage && given[0] === feed ? given.subarray(1) : given;
    const last = Math.max(bytes.lastIndexOf(feed), bytes.lastIndexOf(carriage));
    this.#isAfterCarriage = given.at(-1) === carriage;
    if (last < 0) {
      // No more than is looked at, so that a line without end costs nothing.
      const room = Math.max(0, mostKept - this.#kept.length);
      if (room > 0) this.#kept = joined(this.#kept, bytes.subarray(0, room));
      return;
    }
    const ended = bytes.subarray(0, last + 1);
    const block = this.#kept.length === 0 ? ended : joined(this.#kept, ended);
    this.#kept = joined(bytes.subarray(last + 1, last + 1 + mostKept), none);
    this.#cut(block);
  }

  /** Hands on the lines of a block that ends with a line end. */
  #cut(block: Uint8Array): void {
    const text = utf8.decode(block);
    if (text.includes("\ufffd")) {
      for (let from = 0; from < block.length; ) {
        let to = from;
        while (block[to] !== feed && block[to] !== carriage) to++;
        const line = decodedLine(block.subarray(from, to));
        this.#hand(line, 0, line.length);
        from = to + (block[to] === carriage && block[to + 1] === feed ? 2 : 1);
      }
      return;
    }
    // Searched for by the host, the ends take five times as long in some runs.
    let from = 0;
    let before = 0;
    for (let i = 0; i < text.length; i++) {
      const code = text.charCodeAt(i);
      if (code === carriage || (code === feed && before !== carriage)) this.#hand(text, from, i);
      if (code === carriage || code === feed) from = i + 1;
      before = code;
    }
  }

  #hand(text: string, from: number, to: number): void {
    this.#sink(text, from, Math.min(to, from + longestLine + 1), this.#line++);
  }
}

const none = new Uint8Array(0);
const utf8 = new TextDecoder("utf-8", { ignoreBOM: true });
const strict = new TextDecoder("utf-8", { ignoreBOM: true, fatal: true });
const latin = new TextDecoder("latin1");

function decodedLine(bytes: Uint8Array): string {
  try {
    return strict.decode(bytes);
  } catch {
    return latin.decode(bytes);
  }
}

/** A copy of both: what is handed in may be written over. */
function joined(first: Uint8Array, second: Uint8Array): Uint8Array {
  const out = new Uint8Array(first.length + second.length);
  out.set(first);
  out.set(second, first.length);
  return out;
}
