import { twoProductError } from "./two-product.ts";

/** Whole part beyond which a second is no longer represented. */
const largestWhole = 9007199254740992;

/**
 * A moment of true time as whole seconds and a remainder, so that a resolution of 1e-16 s holds
 * at any length of run. One object is set again and again; no method allocates.
 *
 *   t = whole + fraction, whole an integer, 0 ≤ fraction < 1
 */
export class Instant {
  /** Whole seconds, an integer of magnitude up to 2⁵³. */
  whole = 0;
  /** Remainder; s, 0 ≤ fraction < 1. */
  fraction = 0;

  /**
   * Set to a sum of two numbers of seconds.
   *
   *   t = whole + fraction
   *
   * @param whole - s; need not be an integer, its remainder is carried over without loss
   * @param fraction - s; any size and sign
   * @returns this instant
   * @throws RangeError if either is not finite or the sum is beyond 2⁵³ s
   */
  set(whole: number, fraction: number): this {
    const wholeFloor = Math.floor(whole);
    const fractionFloor = Math.floor(fraction);
    this.settle(wholeFloor + fractionFloor, whole - wholeFloor, fraction - fractionFloor);
    return this;
  }

  /**
   * Set to the end of the n-th cycle of a period.
   *
   *   t = n·T, the product taken exactly and rounded once, to the resolution of the remainder
   *
   * @param n - number of cycles; integer, |n| ≤ 2⁵³
   * @param period - T; s, 0 < period < 1e12
   * @returns this instant
   * @throws RangeError if n is no integer, the period out of range or the product beyond 2⁵³ s
   */
  setCycle(n: number, period: number): this {
    if (!Number.isInteger(n) || Math.abs(n) > largestWhole) {
      throw new RangeError(`Instant.setCycle: n must be an integer up to 2^53, got ${n}`);
    }
    if (!(period > 0 && period < 1e12)) {
      throw new RangeError(`Instant.setCycle: period must be > 0 and < 1e12 s, got ${period}`);
    }
    const product = n * period;
    return this.set(product, twoProductError(n, period, product));
  }

  /**
   * Move by an interval.
   *
   * @param dt - s; any sign
   * @returns this instant
   * @throws RangeError if dt is not finite or the sum is beyond 2⁵³ s
   */
  add(dt: number): this {
    const floor = Math.floor(dt);
    this.settle(this.whole + floor, this.fraction, dt - floor);
    return this;
  }

  /**
   * Set to another instant.
   *
   * @param other - the instant copied
   * @returns this instant
   */
  copy(other: Instant): this {
    this.whole = other.whole;
    this.fraction = other.fraction;
    return this;
  }

  /**
   * Interval from another instant to this one.
   *
   *   t − t′, part by part, rounded once to the size of the interval
   *
   * @param other - t′
   * @returns the interval; s, positive if this instant is the later one
   */
  minus(other: Instant): number {
    return this.whole - other.whole + (this.fraction - other.fraction);
  }

  /**
   * Whether this instant is earlier than another.
   *
   * @param other - the instant compared with
   * @returns true if t < t′
   */
  isBefore(other: Instant): boolean {
    return (
      this.whole < other.whole || (this.whole === other.whole && this.fraction < other.fraction)
    );
  }

  /**
   * Order of two instants, as a sort wants it.
   *
   * @param other - the instant compared with
   * @returns −1 if this one is earlier, 0 if they are equal, 1 if it is later
   */
  compare(other: Instant): number {
    if (this.whole !== other.whole) {
      return this.whole < other.whole ? -1 : 1;
    }
    return this.fraction === other.fraction ? 0 : this.fraction < other.fraction ? -1 : 1;
  }

  /**
   * Set to a moment after all others, for something that is not to happen.
   *
   * @returns this instant; `whole` is Infinity
   */
  setNever(): this {
    this.whole = Number.POSITIVE_INFINITY;
    this.fraction = 0;
    return this;
  }

  /**
   * The moment as one number, rounded to its spacing (1.2e-7 s at 1e9 s): for people and for coarse choices.
   *
   * @returns whole + fraction; s
   */
  toSeconds(): number {
    return this.whole + this.fraction;
  }

  /** Take over a whole part and two remainders in [0, 1], bringing their sum below 1. */
  private settle(whole: number, first: number, second: number): void {
    let fraction = first + second;
    let carried = whole;
    if (fraction >= 1) {
      // What rounding to the spacing above 1 lost comes back once the whole second is taken off.
      fraction = first >= second ? first - 1 + second : second - 1 + first;
      carried += 1;
    }
    if (fraction >= 1) {
      fraction -= 1;
      carried += 1;
    } else if (fraction < 0) {
      // Rounding decided for a whole second that was not quite there; keep the last moment before it.
      fraction = 0;
    }
    if (!(Math.abs(carried) <= largestWhole)) {
      throw new RangeError(
        `Instant: a moment must be finite and within 2^53 s, got ${carried} s + ${fraction} s`,
      );
    }
    this.whole = carried;
    this.fraction = fraction;
  }
}
