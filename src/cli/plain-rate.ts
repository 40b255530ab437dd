import { rateInWords } from "../planning/rate-in-words.ts";

/**
 * A rate that is known, in three digits: `-0.805 ms/day`.
 *
 * @param rate - f/f₀ − 1
 */
export function plainRate(rate: number): string {
  return rateInWords(rate, 0).replace(/[\d.]+(e[+-]\d+)?/, (text) =>
    String(Number(Number(text).toPrecision(3))),
  );
}
