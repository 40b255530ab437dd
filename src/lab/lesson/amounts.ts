import { fixedText, numberText } from "../../view/chart/index.ts";

/** Milliseconds gained or lost in a day, for a rate of one: the page has this one unit. */
export const msPerDay = 86_400_000;

/** Numbers up to here are written out. */
const longest = 1e9;

/**
 * A rate in ms/day, without its unit.
 *
 * @param rate - f/f₀ − 1; finite
 * @param digits - significant digits
 */
export function figure(rate: number, digits = 2): string {
  const value = Number((rate * msPerDay).toPrecision(digits));
  return Math.abs(value) >= Number(`1e${digits}`) && Math.abs(value) < longest
    ? fixedText(value, 0)
    : numberText(value, digits);
}

/**
 * A rate with its sign.
 *
 * Exact case: −1/86400000 gives `−1.0 ms/day`.
 */
export const amount = (rate: number, digits = 2): string => `${figure(rate, digits)} ms/day`;

/** A rate without its sign. */
export const size = (rate: number, digits = 2): string => amount(Math.abs(rate), digits);

/** What a clock of this rate does, such as `gains 3.2 ms/day`. */
export function gainsOrLoses(rate: number, digits = 2): string {
  if (rate === 0) return "keeps its nominal rate";
  return `${rate < 0 ? "loses" : "gains"} ${size(rate, digits)}`;
}

/** What a clock of this rate is, such as `3.2 ms/day fast`. */
export function fastOrSlow(rate: number, digits = 2): string {
  if (rate === 0) return "exactly right";
  return `${size(rate, digits)} ${rate < 0 ? "slow" : "fast"}`;
}

/**
 * How much larger one amount is than another.
 *
 * @returns such as `8.3 times`
 */
export const times = (ratio: number): string =>
  `${ratio >= 100 ? fixedText(Number(ratio.toPrecision(2)), 0) : numberText(ratio, 2)} times`;
