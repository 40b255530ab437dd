import { pow, shortNumber } from "../../numeric/index.ts";
import { plusMinus } from "./plus-minus.ts";

const secondsPerDay = 86400;

/** A unit in which a rate is told: time gained in a day. */
export interface RateUnit {
  /** Such as `ms/day`. */
  readonly name: string;
  /** One of it as a fraction: f/f₀ − 1. */
  readonly fraction: number;
}

const unitOf = (name: string, seconds: number): RateUnit => ({
  name,
  fraction: seconds / secondsPerDay,
});

/** All of them, the largest first; 1 s/day = 1/86400 = 1.157407e-5. */
export const rateUnits: readonly RateUnit[] = [
  unitOf("s/day", 1),
  unitOf("ms/day", 1e-3),
  unitOf("µs/day", 1e-6),
  unitOf("ns/day", 1e-9),
  unitOf("ps/day", 1e-12),
];

/**
 * The unit of one rate: the largest of which it is at least a tenth.
 *
 * @param size - rate or half-width; dimensionless; its sign does not matter
 */
export function rateUnit(size: number): RateUnit {
  if (size === 0) return rateUnits[0]!;
  return rateUnits.find(({ fraction }) => Math.abs(size) >= 0.1 * fraction) ?? rateUnits.at(-1)!;
}

/**
 * The one unit of a table or picture: that of its smallest rate, unless the largest would then take more than four digits.
 *
 * @param rates - whatever is shown; dimensionless; zeros and what is not finite do not count
 */
export function commonRateUnit(rates: readonly number[]): RateUnit {
  const sizes = rates.map(Math.abs).filter((size) => size > 0 && size < Infinity);
  if (sizes.length === 0) return rateUnits[0]!;
  const largest = Math.max(...sizes);
  const finest = rateUnits.indexOf(rateUnit(Math.min(...sizes)));
  const coarsest = rateUnits.findLastIndex(({ fraction }) => largest < 1e4 * fraction);
  return rateUnits[Math.max(0, Math.min(finest, coarsest))]!;
}

/** What a unit is as a fraction: `1 ms/day = 1.157e-8`. */
export const unitAsFraction = ({ name, fraction }: RateUnit): string =>
  `1 ${name} = ${shortNumber(fraction, 4)}`;

/** The number of units in a rate, for a table: all its significant digits, `0.020`, and an exponent below 1e-3. */
export function rateNumber(rate: number, unit: RateUnit, digits = 3): string {
  const number = rate / unit.fraction;
  const short = shortNumber(number, digits);
  return short === "0" || short.includes("e") || Math.abs(number) >= pow(10, digits)
    ? short
    : number.toPrecision(digits);
}

/**
 * A rate that is known: `-0.805 ms/day`, with a sign before what is fast, too.
 *
 * @param rate - f/f₀ − 1
 * @param digits - significant digits, 1 to 15
 */
export function rateText(rate: number, digits = 3, unit = rateUnit(rate)): string {
  return `${rate > 0 ? "+" : ""}${rateSize(rate, digits, unit)}`;
}

/** The same without a plus sign, of what has no direction: `1.39 s/day`. */
export function rateSize(rate: number, digits = 3, unit = rateUnit(rate)): string {
  return `${shortNumber(rate / unit.fraction, digits)} ${unit.name}`;
}

/**
 * A rate with its expanded uncertainty: `-1.28 ± 0.90 ms/day`.
 *
 * @param rate - f/f₀ − 1, positive = fast; dimensionless
 * @param half - half-width of its interval; dimensionless, > 0
 * @param unit - that of the greater of the two, if not told otherwise
 * @throws RangeError if rate is not finite, or half not above zero and finite
 *
 * Source: JCGM 100:2008 (GUM), 7.2.4.
 */
export function rateWithin(
  rate: number,
  half: number,
  unit = rateUnit(Math.max(Math.abs(rate), half)),
): string {
  return `${rateNumbersWithin(rate, half, unit)} ${unit.name}`;
}

/** The same without its unit, for a table. */
export const rateNumbersWithin = (rate: number, half: number, unit: RateUnit): string =>
  plusMinus(rate / unit.fraction, half / unit.fraction, true);

/** A half-width in two digits: `±6.3 ms/day`; a dash where there is none. */
export const halfWidthText = (half: number, digits = 2): string =>
  Number.isFinite(half) ? `±${rateSize(half, digits)}` : "–";
