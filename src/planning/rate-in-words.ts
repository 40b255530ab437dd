import { conciseUncertainty } from "./concise-uncertainty.ts";

const secondsPerDay = 86400;
const units: readonly (readonly [number, string])[] = [
  [1, "s/day"],
  [1e-3, "ms/day"],
  [1e-6, "µs/day"],
  [1e-9, "ns/day"],
  [1e-12, "ps/day"],
];

/**
 * Says a rate and its uncertainty in seconds per day: `+0.123(45) ms/day`.
 *
 * The unit is the largest in which the greater of the two is at least 0.1.
 *
 * @param rate - fractional rate, positive = fast; dimensionless
 * @param uncertainty - its uncertainty, standard or expanded as the caller says; dimensionless, >= 0
 * @returns the rate in concise form with its unit
 * @throws RangeError if rate is not finite, or uncertainty negative or not finite
 *
 * Source: JCGM 100:2008 (GUM), 7.2.2; 1 s/day = 1/86400 = 1.157407e-5.
 */
export function rateInWords(rate: number, uncertainty: number): string {
  const size = Math.max(Math.abs(rate), uncertainty) * secondsPerDay;
  const smallest = units[units.length - 1]!;
  const [unit, name] = size === 0 ? units[0]! : (units.find(([s]) => size >= 0.1 * s) ?? smallest);
  const value = (rate * secondsPerDay) / unit;
  return `${conciseUncertainty(value, (uncertainty * secondsPerDay) / unit, true)} ${name}`;
}
