import { quantityText } from "../../view/chart/index.ts";

/**
 * A rate as time gained or lost in a day, without a sign.
 *
 * @param rate - f/f₀ − 1; finite
 * @param digits - significant digits
 * @returns such as `3.2 ms a day`
 *
 * Exact case: 1/86400 gives `1.0 s a day` with two digits.
 */
export function perDay(rate: number, digits = 2): string {
  return `${quantityText(Math.abs(rate) * 86400, "s", digits)} a day`;
}

/**
 * A rate as what a clock does.
 *
 * @param rate - f/f₀ − 1; finite
 * @param digits - significant digits
 * @returns such as `gains 3.2 ms a day`; `keeps its nominal rate` where it does neither
 */
export function gainsOrLoses(rate: number, digits = 2): string {
  if (rate === 0) return "keeps its nominal rate";
  return `${rate < 0 ? "loses" : "gains"} ${perDay(rate, digits)}`;
}

/**
 * A rate as what a clock is.
 *
 * @param rate - f/f₀ − 1; finite
 * @param digits - significant digits
 * @returns such as `3.2 ms a day fast`
 */
export function fastOrSlow(rate: number, digits = 2): string {
  return `${perDay(rate, digits)} ${rate < 0 ? "slow" : "fast"}`;
}
