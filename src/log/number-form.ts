import type { NumberReader } from "./number-reader.ts";

/** By how much a reading may differ from the usual one and still be one: miscounts are smaller by far. */
const mostTimes = 50;
/** Share of the numbers that are written alike where all are meant to be. */
const nearlyAll = 0.9;
/** How many numbers have how many digits. */
class Tally {
  readonly #counts = new Map<number, { all: number; zeros: number }>();
  #total = 0;

  add(digits: number, isZero: boolean): void {
    const count = this.#counts.get(digits) ?? { all: 0, zeros: 0 };
    this.#counts.set(digits, count);
    count.all++;
    if (isZero) count.zeros++;
    this.#total++;
  }

  /** Whether more than a few have so many. */
  has(digits: number): boolean {
    return (this.#counts.get(digits)?.all ?? 0) > (1 - nearlyAll) * this.#total;
  }

  /** The digits that nearly all have; null where that is not so, or none shows that zeros at the end are written. */
  fixed(): number | null {
    for (const [digits, { all, zeros }] of this.#counts) {
      if (all >= nearlyAll * this.#total && zeros > 0) return digits;
    }
    return null;
  }
}

/**
 * In what form the readings of a log are written: how many decimals, or digits in all. On a line that was garbled on its
 * way a digit may be lost or doubled, which gives another number; it shows where all others have as many.
 */
export class NumberForm {
  /** Usual size of a reading, > 0; NaN where readings may have any. */
  readonly #usual: number;
  readonly #decimals = new Tally();
  readonly #digits = new Tally();
  readonly #exponents = new Tally();
  readonly #whole = new Tally();

  /** What was learnt: digits of each kind, null where they vary. */
  #fixed: { decimals: number | null; digits: number | null; exponent: number | null } | null = null;

  constructor(usual: number) {
    this.#usual = usual;
  }

  /** Learns from a number of the sample. */
  learn(number: NumberReader): void {
    this.#decimals.add(number.decimals, number.endsInZero);
    this.#digits.add(digitsOf(number), number.endsInZero);
    this.#whole.add(number.whole, false);
    this.#exponents.add(number.exponentDigits, number.hasPaddedExponent);
  }

  /** Whether a number is written as those of the sample, and of a size that a miscount can explain. */
  fits(value: number, number: NumberReader): boolean {
    if (value > mostTimes * this.#usual || value < this.#usual / mostTimes) return false;
    this.#fixed ??= {
      decimals: this.#decimals.fixed(),
      digits: this.#digits.fixed(),
      exponent: this.#exponents.fixed(),
    };
    const { decimals, digits, exponent } = this.#fixed;
    if (exponent !== null && number.exponentDigits < exponent) return false;
    if (decimals === null && digits === null) return true;
    if (number.decimals !== decimals && digitsOf(number) !== digits) return false;
    // A digit too many or too few before the decimal sign makes ten times as much, or a tenth.
    const isWithin = (times: number) =>
      !(value > times * this.#usual || value < this.#usual / times);
    return isWithin(this.#whole.has(number.whole) ? 8 : 2);
  }
}

/** Digits from the first that is not 0. */
const digitsOf = ({ lead, step }: NumberReader): number => lead - step + 1;
