import type { Readings } from "../readings/index.ts";
import { cleanReadings } from "./clean-readings.ts";
import { type RateOptions, type RatesFound, ratesFound } from "./estimate-rates.ts";
import { inferredCycles } from "./inferred-cycles.ts";
import type { RateEstimate } from "./rate-estimate.ts";
import { notOfOneRate, tooMuchApart } from "./too-much-apart.ts";

/**
 * Rates of a record with its slips repaired and its strays set apart.
 *
 * @param given - the record; at least one reading not missing
 * @param slipUnit - smallest slip; cycles, 0 < unit <= 1
 * @param options - what is known beside it
 * @returns the estimates; none applies, and there is no best fit, where so much was set apart that the record has no
 *   one rate
 * @throws RangeError if every reading is missing
 *
 * Source: see the single steps. Exact case: of a record without outliers, what ratesFound gives.
 */
export function cleanedRates(
  given: Readings,
  slipUnit: number,
  options: RateOptions = {},
): RatesFound {
  const counted = given.kind === "period" ? inferredCycles(given) : given;
  const { without } = cleanReadings(counted, slipUnit);
  const found = ratesFound(without, options);
  const against = tooMuchApart(counted, without);
  return against === ""
    ? found
    : { ...found, estimates: notOfOneRate(found.estimates, against), fit: null };
}

/** The estimates alone. */
export function cleanedEstimates(
  given: Readings,
  slipUnit: number,
  options: RateOptions = {},
): RateEstimate[] {
  return cleanedRates(given, slipUnit, options).estimates;
}
