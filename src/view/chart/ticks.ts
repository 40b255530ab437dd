import { ticks as niceTicks, tickStep } from "d3-array";
import { fixedText, givenText, numberText, powerOfTen } from "./number-text.ts";

/** A place on an axis that has a line, and most often a number. */
export interface Tick {
  /** In the units of the axis. */
  readonly value: number;
  /** Its number, or null for a line without one. */
  readonly text: string | null;
}

/**
 * Ticks of a linear axis at multiples of 1, 2 or 5 times a power of ten.
 *
 * @param low - lower end, in the units shown; finite
 * @param high - upper end; > low
 * @param most - how many there may be at most; at least two are tried for
 * @returns ticks from low to high, all with as many decimals as the step needs
 *
 * Exact case: from 0 to 1 with most 6 gives 0.0, 0.2, 0.4, 0.6, 0.8, 1.0.
 */
export function linearTicks(low: number, high: number, most: number): Tick[] {
  let count = Math.max(2, Math.floor(most));
  while (count > 2 && niceTicks(low, high, count).length > most) {
    count--;
  }
  const step = tickStep(low, high, count);
  const decimals = Math.min(20, Math.max(0, -Math.floor(Math.log10(step * (1 + 1e-9)))));
  return niceTicks(low, high, count).map((value) => ({ value, text: fixedText(value, decimals) }));
}

/** Decades between two numbers; every other, every third … where there are many. */
const decadeSteps = [1, 2, 3, 4, 6, 10, 20, 30, 50, 100];

/**
 * Ticks of a logarithmic axis: a number at every decade, thinned where there are many, and lines between.
 *
 * Less than two decades get numbers at 2 and 5 times the power of ten too, or at 3 times where these do not
 * fit; less than one decade gets the ticks of a linear axis, as far as their numbers fit.
 *
 * @param low - lower end; > 0
 * @param high - upper end; > low
 * @param length - length of the axis; px
 * @param room - room a number needs along the axis; px
 * @returns ticks in ascending order
 * @throws RangeError if the ends are not 0 < low < high < infinity
 *
 * Exact case: from 1 to 1000 over 400 px gives the numbers 1, 10, 100, 1000.
 */
export function logTicks(low: number, high: number, length: number, room: number): Tick[] {
  if (!(low > 0 && high > low && high < Infinity)) {
    throw new RangeError(`logTicks: low and high must be 0 < low < high, got ${low} and ${high}`);
  }
  const perDecade = length / Math.log10(high / low);
  if (high < 10 * low) {
    return crowdedTicks(low, high, perDecade, room);
  }
  // A decade that ends a hair outside, by the rounding of a logarithm, is still inside.
  const first = Math.ceil(Math.log10(low) - 1e-9);
  const last = Math.floor(Math.log10(high) + 1e-9);
  const step = decadeSteps.find((decades) => decades * perDecade >= room) ?? decadeSteps.at(-1)!;
  const plain = first >= -3 && last <= 4;
  const numbersBetween =
    last - first > 1 ? [] : 0.3 * perDecade >= room ? [2, 5] : 0.47 * perDecade >= room ? [3] : [];
  const linesBetween = perDecade >= 36 ? [2, 3, 4, 5, 6, 7, 8, 9] : [];
  const ticks: Tick[] = [];
  for (let exponent = first - 1; exponent <= last; exponent++) {
    const decade = Number(`1e${exponent}`);
    if (exponent >= first) {
      const text = plain ? numberText(decade, 1) : powerOfTen(exponent);
      ticks.push({ value: decade, text: exponent % step === 0 ? text : null });
    }
    for (const multiple of linesBetween) {
      const value = Number(`${multiple}e${exponent}`);
      if (value >= low && value <= high) {
        const named = numbersBetween.includes(multiple);
        ticks.push({ value, text: named ? numberText(value, 1) : null });
      }
    }
  }
  return ticks;
}

/** Round values, evenly spaced, of which those get a number that lie far enough from the one before. */
function crowdedTicks(low: number, high: number, perDecade: number, room: number): Tick[] {
  let named = 0;
  return niceTicks(low, high, Math.max(3, (perDecade * Math.log10(high / low)) / room)).map(
    (value) => {
      if (named > 0 && Math.log10(value / named) * perDecade < room) {
        return { value, text: null };
      }
      named = value;
      return { value, text: givenText(value) };
    },
  );
}
