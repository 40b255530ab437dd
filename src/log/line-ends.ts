/**
 * How the lines of a log end, which tells whether a last one without a line end is whole: editors often leave that out,
 * and a line cut off in the middle of a number lacks it too, such as 0.9999 of 0.99997.
 */
export class LineEnds {
  /** Fewest and most digits at the end of a line. */
  #fewest = Number.POSITIVE_INFINITY;
  #most = -1;
  #text = "";
  #from = 0;
  #to = 0;

  /** Learns from a line that was read. */
  learn(text: string, from: number, to: number): void {
    const digits = digitsBefore(text, from, to);
    if (digits < this.#fewest) this.#fewest = digits;
    if (digits > this.#most) this.#most = digits;
    this.#text = text;
    this.#from = from;
    this.#to = to;
  }

  /**
   * Whether a line is made as the one read last and ends in as many digits as all. Digits that are no decimals must
   * begin alike too: a whole number with a digit more than the others is as long as they are when that is cut off.
   *
   * @param text - the line
   * @param decimal - its decimal sign
   */
  fit(text: string, decimal: string): boolean {
    const last = this.#text.slice(this.#from, this.#to);
    const digits = digitsBefore(text, 0, text.length);
    if (madeOf(text) !== madeOf(last) || digits !== this.#fewest || digits !== this.#most)
      return false;
    const at = text.length - digits;
    return digits === 0 || text[at - 1] === decimal || text[at] === last[last.length - digits];
  }
}

/** How many digits stand before a place. */
function digitsBefore(text: string, from: number, to: number): number {
  let at = to;
  while (at > from && text.charCodeAt(at - 1) >= 48 && text.charCodeAt(at - 1) <= 57) at--;
  return to - at;
}

/** A line with its numbers and blanks alike. */
const madeOf = (text: string) =>
  text
    .trimStart()
    .replace(/[-+]?\d+/g, "0")
    .replace(/\s+/g, " ");
