import { rateInWords } from "../planning/index.ts";

/**
 * A rate that is known, in three digits if not told otherwise: `-0.805 ms/day`.
 *
 * @param rate - f/f₀ − 1
 * @param digits - significant digits, 1 to 15
 */
export function plainRate(rate: number, digits = 3): string {
  return rateInWords(rate, 0).replace(/[\d.]+(e[+-]\d+)?/, (text) =>
    String(Number(Number(text).toPrecision(digits))),
  );
}
