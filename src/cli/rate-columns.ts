import { pow } from "../numeric/index.ts";
import { rateInWords } from "../planning/index.ts";
import { plainRate } from "./plain-rate.ts";

/** Head of a table of estimates, without the name of the estimator. */
export const rateHead = ["over this run", "steady", "as s/√K"] as const;

/** Cells under {@link rateHead}: the rate with its half-width of 95 %, and those of the other two claims; NaN: none. */
export function rateCells(rate: number, run: number, steady: number, naive: number): string[] {
  const isKnown = Number.isFinite(rate);
  return [
    isKnown && Number.isFinite(run) ? rateInWords(rate, run) : "–",
    isKnown ? halfWidth(steady) : "–",
    isKnown ? halfWidth(naive) : "–",
  ];
}

/** A half-width in two digits: `±6.3 ms/day`. */
export function halfWidth(half: number): string {
  return Number.isFinite(half) ? plainRate(half, 2).replace("+", "±") : "–";
}

/**
 * How to read a rate with its uncertainty in parentheses, as a line below a table.
 *
 * @param half - half-width of the interval, > 0
 * @returns the line; none where the rate cannot be written without a power of ten
 */
export function howToRead(rate: number, half: number): string[] {
  if (!Number.isFinite(rate) || !(half > 0 && half < Infinity)) return [];
  const text = rateInWords(rate, half);
  const parts = /^([+-]?\d+(?:\.(\d+))?)\((\d+)\) (\S+)$/.exec(text);
  if (parts === null) return [];
  const [, value, decimals = "", digits, unit] = parts;
  // Many zeros are no help to a reader.
  if (decimals.length > 4) {
    return [`${value}(${digits}): the last digits are uncertain by ±${digits}, at 95 %.`];
  }
  const spread = (Number(digits) / pow(10, decimals.length)).toFixed(decimals.length);
  return [`${value}(${digits}) stands for ${value} ± ${spread} ${unit}, at 95 %.`];
}

/** A known rate in as many digits as an estimate with this half-width shows, three at least. */
export function truthBeside(truth: number, half: number): string {
  const ratio = half > 0 && truth !== 0 ? Math.abs(truth) / half : 0;
  const digits = ratio > 0 && ratio < Infinity ? Math.floor(Math.log10(ratio)) + 3 : 3;
  return plainRate(truth, Math.min(15, Math.max(3, digits)));
}
