/** Runs of digits this long or longer count as alike. */
const longRun = 5;
/** Shapes that are remembered. */
const most = 16;

/** Where the fields of a line stand: first character and the one after the last of each; -1 where it has none. */
export type Spans = Int32Array;

interface Shape<T> {
  /** Characters, with a run of digits as minus its length. */
  readonly codes: Int32Array;
  /** Which of them begin the fields, and follow them; -1 without. */
  readonly spans: Int32Array;
  readonly about: T;
}

/**
 * Remembers the shapes of lines (all but which digits stand in them), so that a line like one before need not be
 * understood again: its fields stand in the same places, which are found by one walk along it.
 */
export class LineShapes<T> {
  #shapes: Shape<T>[] = [];
  #at = new Int32Array(64);
  /** Fields of the line found last. */
  spans: Spans = new Int32Array(0);

  /**
   * Looks a line up.
   *
   * @returns what was said about its shape; null where it is new
   */
  find(text: string, from: number, to: number): T | null {
    for (let i = 0; i < this.#shapes.length; i++) {
      const shape = this.#shapes[i]!;
      if (!this.#isLike(shape.codes, text, from, to)) continue;
      if (i > 0) {
        this.#shapes[i] = this.#shapes[i - 1]!;
        this.#shapes[i - 1] = shape;
      }
      const { spans } = shape;
      for (let k = 0; k < spans.length; k++)
        this.spans[k] = spans[k]! < 0 ? -1 : this.#at[spans[k]!]!;
      return shape.about;
    }
    return null;
  }

  /** Remembers the shape of a line, whose fields begin and end where runs of digits or other characters do. */
  remember(text: string, from: number, to: number, spans: Spans, about: T): void {
    const codes: number[] = [];
    const place = new Map<number, number>();
    for (let i = from; i < to; ) {
      place.set(i, codes.length);
      const end = digitsEnd(text, i, to);
      codes.push(end === i ? text.charCodeAt(i) : -Math.min(end - i, longRun));
      i = Math.max(end, i + 1);
    }
    place.set(to, codes.length);
    const places = spans.map((at) => (at < 0 ? -1 : (place.get(at) ?? -2)));
    if (places.includes(-2)) return;
    if (this.#at.length < codes.length + 1) this.#at = new Int32Array(2 * codes.length);
    if (this.spans.length !== spans.length) this.spans = new Int32Array(spans.length);
    if (this.#shapes.length === most) this.#shapes.pop();
    this.#shapes.push({ codes: Int32Array.from(codes), spans: places, about });
  }

  #isLike(codes: Int32Array, text: string, from: number, to: number): boolean {
    const at = this.#at;
    let i = from;
    for (let k = 0; k < codes.length; k++) {
      const code = codes[k]!;
      at[k] = i;
      if (code >= 0) {
        if (i >= to || text.charCodeAt(i) !== code) return false;
        i++;
        continue;
      }
      const start = i;
      while (i < to && isDigit(text.charCodeAt(i))) i++;
      const run = i - start;
      if (run < longRun ? run !== -code : code !== -longRun) return false;
    }
    at[codes.length] = i;
    return i === to;
  }
}

const isDigit = (code: number) => code >= 48 && code <= 57;

function digitsEnd(text: string, from: number, to: number): number {
  let i = from;
  while (i < to && isDigit(text.charCodeAt(i))) i++;
  return i;
}
