import type { Readings } from "../../readings/index.ts";
import { cleanReadings } from "./clean-readings.ts";
import { estimateRates, type RateOptions } from "./estimate-rates.ts";
import type { RateEstimate } from "./rate-estimate.ts";
import { notOfOneRate, tooMuchApart } from "./too-much-apart.ts";

/**
 * Rate by three estimators from a record with its slips repaired and its strays set apart.
 *
 * @param given - the record; at least one reading not missing
 * @param slipUnit - smallest slip; cycles, 0 < unit <= 1
 * @param options - what is known beside it
 * @returns the estimates; none applies where so much was set apart that the record has no one rate
 * @throws RangeError if every reading is missing
 *
 * Source: see the single steps. Exact case: of a record without outliers, the estimates of estimateRates.
 */
export function cleanedEstimates(
  given: Readings,
  slipUnit: number,
  options: RateOptions = {},
): RateEstimate[] {
  const { without } = cleanReadings(given, slipUnit);
  const estimates = estimateRates(without, options);
  const against = tooMuchApart(given, without);
  return against === "" ? estimates : notOfOneRate(estimates, against);
}
