import { rateUnit, rateUnits } from "../words/index.ts";
import { givenText, numberText, powerOfTen } from "./number-text.ts";

/** The unit in which an axis shows a quantity: shown number = value · factor. */
export interface DisplayUnit {
  readonly factor: number;
  /** What stands in the brackets of the axis title. */
  readonly unit: string;
}

const prefixes: Readonly<Record<number, string>> = {
  [-15]: "f",
  [-12]: "p",
  [-9]: "n",
  [-6]: "µ",
  [-3]: "m",
  0: "",
  3: "k",
  6: "M",
  9: "G",
};

/** Units of time people think in; a run of a week is not read in megaseconds. */
const longTimes: readonly (readonly [number, string])[] = [
  [2 * 31557600, "a"],
  [5 * 86400, "d"],
  [36000, "h"],
];
const secondsIn: Readonly<Record<string, number>> = { a: 31557600, d: 86400, h: 3600 };

/**
 * A unit that brings the largest number of an axis between 1 and 1000.
 *
 * @param largest - largest absolute value to be shown, in SI units; >= 0
 * @param unit - SI unit: `s`, `Hz`, `V` …, `1` for a pure number, or `rate` for a rate, which is one too
 * @returns for `1` a power of ten, for a rate a time a day, for a long time h, d or a, else a prefix of the SI
 *
 * Source: BIPM SI Brochure, 9th edition, tables 7 and 8 (prefixes; hour, day); year of 365.25 d as in
 * ISO 80000-3. Exact case: 2.5e-6 s is shown in µs, with factor 1e6.
 */
export function displayUnit(largest: number, unit: string): DisplayUnit {
  if (unit === "rate") {
    const { name, fraction } = rateUnit(largest);
    return { factor: 1 / fraction, unit: name };
  }
  if (unit === "s") {
    for (const [from, name] of longTimes) {
      if (largest >= from) {
        return { factor: 1 / secondsIn[name]!, unit: name };
      }
    }
  }
  // Whoever asks for this unit wants no other: one unit in all of a page.
  if (unit === "ms/day") return { factor: 1, unit };
  // 1 + 1e-9: a value such as 1e-6, a hair below in doubles, still counts as 1 µ.
  const power = largest > 0 ? 3 * Math.floor(Math.log10(largest * (1 + 1e-9)) / 3) : 0;
  if (unit === "1") {
    const exponent = largest >= 0.01 && largest < 1e4 ? 0 : power;
    return { factor: inversePower(exponent), unit: exponent === 0 ? "" : powerOfTen(exponent) };
  }
  const exponent = Math.min(unit === "s" ? 0 : 9, Math.max(-15, power));
  return { factor: inversePower(exponent), unit: `${prefixes[exponent]}${unit}` };
}

const isPure = (unit: string): boolean => unit === "1" || unit === "fraction";

/** What one of a unit of rate is as a fraction: `1 ms/day = 1.157·10⁻⁸`; null for any other unit. */
export function fractionNote(unit: string): string | null {
  const found = rateUnits.find(({ name }) => name === unit);
  return found ? `1 ${unit} = ${numberText(found.fraction, 4)}` : null;
}

const inversePower = (exponent: number): number => Number(`1e${-exponent}`);

/**
 * A quantity in words: a few significant digits and the unit that suits them.
 *
 * @param value - in SI units; finite
 * @param unit - as for `displayUnit`
 * @param digits - significant digits; integer, 1 to 15
 * @returns such as `8.7 ms`, or `3.2·10⁻⁹` for a pure number
 *
 * Exact case: (0.0087, "s", 2) gives `8.7 ms`.
 */
export function quantityText(value: number, unit: string, digits: number): string {
  if (isPure(unit)) return numberText(value, digits);
  if (value === 0) return `0 ${unit === "rate" ? "s/day" : unit}`;
  const shown = textUnit(Number(value.toPrecision(digits)), unit);
  return `${numberText(value * shown.factor, digits)} ${shown.unit}`;
}

/**
 * A quantity that was set, not measured, in words: its digits as they were set.
 *
 * @param value - in SI units; finite
 * @param unit - as for `displayUnit`
 * @returns such as `50 s` or `4.5 V`
 *
 * Exact case: (0.06, "s") gives `60 ms`.
 */
export function givenQuantityText(value: number, unit: string): string {
  if (isPure(unit)) return givenText(value);
  if (value === 0) return `0 ${unit === "rate" ? "s/day" : unit}`;
  const shown = textUnit(value, unit);
  return `${givenText(value * shown.factor)} ${shown.unit}`;
}

/** In words a time becomes hours and days sooner than along an axis. */
function textUnit(value: number, unit: string): DisplayUnit {
  const size = Math.abs(value);
  if (unit === "s" && size >= 7200 && size < 2 * secondsIn.a!) {
    const name = size >= 2 * secondsIn.d! ? "d" : "h";
    return { factor: 1 / secondsIn[name]!, unit: name };
  }
  return displayUnit(size, unit);
}
