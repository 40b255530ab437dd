import type { Column, Layout } from "./detect-layout.ts";
import { Growing } from "./growing.ts";
import type { Spans } from "./line-shapes.ts";
import { itemAt, matchesLayout } from "./match-row.ts";
import { NumberReader } from "./number-reader.ts";
import { cellText, type Row } from "./scan-row.ts";
import { readDate, readTimeOfDay } from "./stamps.ts";
import { WrittenDigits } from "./written-digits.ts";

/** What lines of one shape have in common. */
export interface LineKind {
  /** By which their reading is multiplied: a power of ten, and a factor. */
  readonly power: number;
  readonly factor: number;
  readonly isFallback: boolean;
}

/** From what size on a number that tells when is read in two parts. */
const large = 1e8;
/** What instruments that speak SCPI show for overflow (9.9e37) and no number (9.91e37). */
const overflow = 9e36;

/** The columns of a log, filled line by line; NaN where a value is missing. */
export class LogColumns {
  readonly value = new Growing();
  readonly line = new Growing();
  readonly date: Growing | null;
  readonly time: Growing | null;
  /** Numbers that tell when, in two parts: whole units, and the rest. */
  readonly stamp: readonly [Growing, Growing] | null;
  readonly temperature: Growing | null;
  readonly cycles: Growing | null;
  readonly rate: Growing | null;
  readonly digits = new WrittenDigits();
  /** Finest step of the stamps; s. */
  stampStep = Number.POSITIVE_INFINITY;
  hasZone = false;
  /** First line with a 60th second; 0 without. */
  sixtieth = 0;
  fallback = 0;
  readonly #layout: Layout;
  readonly #numbers = new NumberReader();
  readonly #point: number;
  readonly #isPositive: boolean;
  readonly #fields: readonly (Column | null)[];
  /** Finest power of ten in which a number that tells when was written. */
  #finest = Number.POSITIVE_INFINITY;
  #lastDate = { text: "", code: Number.NaN };

  constructor(layout: Layout) {
    this.#layout = layout;
    this.#isPositive = layout.quantity === "period_s" || layout.quantity === "frequency_hz";
    this.#point = layout.format.decimal.charCodeAt(0);
    const { value, date, time, stamp, temperature, cycles, rate } = layout;
    this.#fields = [value, date, time, stamp, temperature, cycles, rate];
    this.date = date && new Growing();
    this.time = time && new Growing();
    this.stamp = stamp && [new Growing(), new Growing()];
    this.temperature = temperature && new Growing();
    this.cycles = cycles && new Growing();
    this.rate = rate && new Growing();
  }

  get count(): number {
    return this.value.length;
  }

  /** Where the fields of a line stand; null where it is not laid out as the others are. */
  match(row: Row): { spans: Spans; kind: LineKind; mark: string } | null {
    const layout = this.#layout;
    if (!matchesLayout(row, layout)) return null;
    const value = itemAt(row, layout.value.slot);
    const spans = new Int32Array(2 * this.#fields.length).fill(-1);
    this.#fields.forEach((column, i) => {
      const item = column === null ? undefined : itemAt(row, column.slot);
      if (item === undefined || item.kind === "missing" || item.kind !== column!.kind) return;
      spans[2 * i] = item.from;
      spans[2 * i + 1] = item.to;
    });
    const unit = value?.unit ?? layout.value.name.unit;
    const flag = layout.flagCell < 0 ? "" : cellText(row, layout.flagCell);
    return {
      spans,
      kind: {
        power: unit?.power ?? 0,
        factor: unit?.factor ?? 1,
        isFallback: /\bfallback\b/.test(flag),
      },
      mark: value?.kind !== "missing" ? "" : row.text.slice(value.from, value.to),
    };
  }

  /**
   * Takes the fields of a line.
   *
   * @returns whether they are what they look like: there is such a day and such a time; "no size" where no reading can
   *   be what stands there, and its place is kept
   */
  take(text: string, spans: Spans, kind: LineKind, line: number): boolean | "no size" {
    let code = Number.NaN;
    let ofDay = Number.NaN;
    if (spans[2]! >= 0) {
      code = this.#dateCode(text, spans[2]!, spans[3]!);
      if (Number.isNaN(code)) return false;
      if (this.time === null) this.stampStep = 86400;
    }
    if (spans[4]! >= 0) {
      const time = readTimeOfDay(text, spans[4]!, spans[5]!);
      if (time === null) return false;
      ofDay = time.seconds;
      if (time.step < this.stampStep) this.stampStep = time.step;
      if (time.hasZone) this.hasZone = true;
      if (time.isSixtieth && this.sixtieth === 0) this.sixtieth = line;
    }
    this.date?.push(code);
    this.time?.push(ofDay);
    if (this.stamp !== null) this.#takeStamp(text, spans[6]!, spans[7]!);
    this.temperature?.push(this.#number(text, spans, 8));
    this.cycles?.push(this.#number(text, spans, 10));
    this.rate?.push(this.#number(text, spans, 12));
    const value = this.#number(text, spans, 0, kind.power) * kind.factor;
    const isSound = this.#isPositive ? value > 0 && 1 / value < overflow : true;
    const isThere =
      Math.abs(value) < overflow && isSound && this.#layout.form.fits(value, this.#numbers);
    this.value.push(isThere ? value : Number.NaN);
    if (isThere) this.digits.add(Math.abs(value), this.#numbers.lead, this.#numbers.step);
    if (isThere && kind.isFallback) this.fallback++;
    this.line.push(line);
    return isThere || Number.isNaN(value) ? true : "no size";
  }

  /**
   * Keeps the place of a reading that is garbled, where no stamps tell of it: a line with at least half the digits of
   * the reading before, no number in it, and no words.
   */
  keepPlace(text: string, line: number): void {
    if (this.date !== null || this.time !== null || this.stamp !== null) return;
    if (/\p{L}{3}/u.test(text)) return;
    const digits = text.match(/\d/g)?.length ?? 0;
    const usual = this.#numbers.lead - this.#numbers.step + 1;
    if (digits < usual / 2 || digits > 2 * usual) return;
    for (const column of [this.temperature, this.cycles, this.rate, this.value])
      column?.push(Number.NaN);
    this.line.push(line);
  }

  /** Whether a line ends in a reading with all the digits that a double holds. */
  digitsAtEnd(text: string): boolean {
    return (
      this.#layout.columns.length === 1 &&
      (text.match(/\d/g)?.length ?? 0) >= 15 &&
      /\d$/.test(text)
    );
  }

  #number(text: string, spans: Spans, at: number, power = 0): number {
    const from = spans[at]!;
    if (from < 0) return Number.NaN;
    this.#numbers.read(text, from, spans[at + 1]!, this.#point, power);
    return this.#numbers.value;
  }

  #dateCode(line: string, from: number, to: number): number {
    const last = this.#lastDate;
    if (last.text.length !== to - from || !line.startsWith(last.text, from)) {
      const text = line.slice(from, to);
      this.#lastDate = { text, code: readDate(text) };
    }
    return this.#lastDate.code;
  }

  /** Whole units and the rest apart, so that nothing is lost but what the digits lack. */
  #takeStamp(text: string, from: number, to: number): void {
    const [whole, rest] = this.stamp!;
    if (from < 0) {
      whole.push(Number.NaN);
      rest.push(Number.NaN);
      return;
    }
    const unit = this.#layout.stamp!.name.unit;
    const { power, factor } = unit ?? { power: 0, factor: 1 };
    const numbers = this.#numbers;
    numbers.read(text, from, to, this.#point, power);
    const { value, step } = numbers;
    // Numbers of this size count from 1970, in s or in parts of it.
    const parts =
      unit !== null || value < 1e11 ? 1 : value < 1e14 ? 1e-3 : value < 1e17 ? 1e-6 : 1e-9;
    if (step < this.#finest) {
      this.#finest = step;
      this.stampStep = Number(`1e${step}`) * factor * parts;
    }
    const isSmall = Math.abs(value) < large && factor === 1;
    const written = isSmall ? "" : text.slice(from, to);
    const point = written.indexOf(this.#layout.format.decimal);
    if (point < 0 || /[eE]/.test(written)) {
      whole.push(value * factor * parts);
      rest.push(0);
      return;
    }
    numbers.read(written, 0, point, this.#point, power);
    whole.push(numbers.value * factor * parts);
    numbers.read(written, point, written.length, this.#point, power);
    rest.push(numbers.value * factor * parts);
  }
}
