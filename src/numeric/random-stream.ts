import seedrandom from "seedrandom";
import { exp } from "./portable-exp.ts";
import { log } from "./portable-log.ts";
import { fillTycheI } from "./tyche-i.ts";
import { zigguratDensity, zigguratInside, zigguratTail, zigguratWidth } from "./ziggurat-tables.ts";

/** Words made at a time. */
const blockLength = 512;

/** Steps the generator takes before its first word, as its authors do. */
const warmUp = new Int32Array(20);

/**
 * The key a stream is made from: JSON of [seed, path], so that no two pairs share a key, in ASCII,
 * since the hash looks at eight bits of a character only, and ended by a character found nowhere else in
 * it, since ARC4 repeats its key and '1' would be '11'.
 */
function streamKey(seed: string, path: string): string {
  const text = JSON.stringify([seed, path]);
  let key = "";
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    key += code < 128 ? text[i] : `\\u${code.toString(16).padStart(4, "0")}`;
  }
  return `${key}\0`;
}

/**
 * A stream of independent random deviates, one for each component of a chain, fixed by the seed of the
 * run and the component's path, so that adding a component changes no other's draws.
 *
 * The key is hashed by ARC4 (package seedrandom), whose words are the state of a Tyche-i generator
 * behind blocks of 512 words. Every method takes its words from the same sequence.
 */
export class RandomStream {
  private readonly state = new Int32Array(4);
  private readonly block = new Int32Array(blockLength);
  private next = blockLength;

  /**
   * @param seed - seed of the run; any string
   * @param path - name of the component within the chain, as "reference/white-fm"; not empty
   * @throws RangeError if the path is empty
   */
  constructor(seed: string, path: string) {
    if (path === "") {
      throw new RangeError('RandomStream: path must be a non-empty string, got ""');
    }
    const hash = seedrandom(streamKey(seed, path));
    for (let i = 0; i < 4; i++) {
      this.state[i] = hash.int32();
    }
    fillTycheI(this.state, warmUp);
  }

  /**
   * The next 32-bit word.
   *
   * @returns integer, uniform on [0, 2³²)
   */
  word(): number {
    return this.signedWord() >>> 0;
  }

  /**
   * A uniform deviate from two words.
   *
   *   (k + ½)/2⁵², k uniform on [0, 2⁵²)
   *
   * @returns deviate in the open interval (0, 1); mean exactly ½, never 0 or 1
   */
  uniform(): number {
    const high = this.signedWord() >>> 6;
    const low = this.signedWord() >>> 6;
    return (high * 67108864 + low + 0.5) * 2.220446049250313e-16;
  }

  /**
   * A standard Gaussian deviate by the ziggurat with 256 layers: one word in 98.8 % of draws.
   * Eight bits choose the layer, 24 bits a cell on either side, whose middle is the deviate.
   *
   * @returns deviate of mean 0 and variance 1; dimensionless, tail exact
   *
   * Source: G. Marsaglia, W. W. Tsang, "The Ziggurat Method for Generating Random Variables", J. Stat.
   * Software 5(8), 2000; layer and value from separate bits after J. Doornik 2005.
   */
  normal(): number {
    const word = this.signedWord();
    const layer = word & 255;
    const cell = word >> 8;
    // Cells below zero are numbered −1, −2, …: folding the sign without a branch gives 0, 1, …
    if ((cell ^ (cell >> 31)) < zigguratInside[layer]!) {
      return (cell + 0.5) * zigguratWidth[layer]!;
    }
    return this.nearEdge(layer, cell);
  }

  /**
   * Gaussian deviates into a part of an array, the same as as many calls of `normal`.
   *
   * @param out - receives the deviates
   * @param from - first index written; integer, 0 ≤ from
   * @param to - index after the last written; integer, from ≤ to ≤ out.length
   * @throws RangeError if the range is not within the array
   */
  fillNormal(out: Float64Array, from: number, to: number): void {
    if (!(from >= 0 && from <= to && to <= out.length)) {
      throw new RangeError(
        `RandomStream.fillNormal: 0 <= from <= to <= ${out.length} must hold, got from ${from}, to ${to}`,
      );
    }
    let i = from;
    while (i < to) {
      if (this.next === blockLength) this.refill();
      const first = this.next;
      const last = Math.min(first + to - i, blockLength);
      this.next = normalsInside(this.block, first, last, out, i);
      i += this.next - first;
      if (this.next < last) out[i++] = this.normal();
    }
  }

  /**
   * Words into a part of an array, the same as as many calls of `word`.
   *
   * @param out - receives integers, uniform on [0, 2³²)
   * @param from - first index written; integer, 0 ≤ from
   * @param to - index after the last written; integer, from ≤ to ≤ out.length
   * @throws RangeError if the range is not within the array
   */
  fillWords(out: Uint32Array, from: number, to: number): void {
    if (!(from >= 0 && from <= to && to <= out.length)) {
      throw new RangeError(
        `RandomStream.fillWords: 0 <= from <= to <= ${out.length} must hold, got from ${from}, to ${to}`,
      );
    }
    for (let i = from; i < to; ) {
      if (this.next === blockLength) this.refill();
      const first = this.next;
      this.next = Math.min(first + to - i, blockLength);
      copyWords(this.block, first, this.next, out, i);
      i += this.next - first;
    }
  }

  /** The next word as a signed 32-bit integer. */
  private signedWord(): number {
    if (this.next === blockLength) this.refill();
    return this.block[this.next++]!;
  }

  private refill(): void {
    fillTycheI(this.state, this.block);
    this.next = 0;
  }

  /** The rest of `normal`: a cell cut by the density, or the tail beyond the lowest layer. */
  private nearEdge(firstLayer: number, firstCell: number): number {
    let layer = firstLayer;
    let cell = firstCell;
    for (;;) {
      if (layer === 0) {
        return cell < 0 ? -this.tail() : this.tail();
      }
      const x = (cell + 0.5) * zigguratWidth[layer]!;
      const bottom = zigguratDensity[layer]!;
      const height = bottom + this.uniform() * (zigguratDensity[layer + 1]! - bottom);
      if (height < exp(-0.5 * x * x)) {
        return x;
      }
      const word = this.signedWord();
      layer = word & 255;
      cell = word >> 8;
      if ((cell ^ (cell >> 31)) < zigguratInside[layer]!) {
        return (cell + 0.5) * zigguratWidth[layer]!;
      }
    }
  }

  /** A deviate beyond the start of the tail, after Marsaglia 1964: exponential, then rejection. */
  private tail(): number {
    for (;;) {
      const beyond = -log(this.uniform()) / zigguratTail;
      if (-2 * log(this.uniform()) > beyond * beyond) {
        return zigguratTail + beyond;
      }
    }
  }
}

// The loops below stand alone because the compiler keeps little in registers where another call may come between.

function copyWords(
  words: Int32Array,
  first: number,
  end: number,
  out: Uint32Array,
  from: number,
): void {
  for (let at = first, i = from; at < end; at++, i++) out[i] = words[at]!;
}

/**
 * Gaussian deviates from words, up to the first that is not settled by one word (`RandomStream.normal`).
 *
 * @returns index of that word, or `end`
 */
function normalsInside(
  words: Int32Array,
  first: number,
  end: number,
  out: Float64Array,
  from: number,
): number {
  for (let at = first, i = from; at < end; at++, i++) {
    const word = words[at]!;
    const layer = word & 255;
    const cell = word >> 8;
    if ((cell ^ (cell >> 31)) >= zigguratInside[layer]!) return at;
    out[i] = (cell + 0.5) * zigguratWidth[layer]!;
  }
  return end;
}
