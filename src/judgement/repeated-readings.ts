import { median, robustDeviation } from "../numeric/index.ts";
import type { Readings } from "../readings/index.ts";

/** Expected number of equal neighbours by chance above which equality says nothing. */
const chance = 0.01;

/**
 * Readings that repeat the one before to the last digit where the scatter makes that improbable: lines written twice.
 *
 *   expected by chance: K·q/(2·√π·s), q the step of the last digit, s the scatter of a reading
 *
 * @param readings - the record
 * @returns places of the repetitions; none where equal neighbours are to be expected
 *
 * Source: density at 0 of the difference of two Gaussians. Exact case: doubles drawn at random never repeat.
 */
export function repeatedReadings(readings: Readings): number[] {
  const isPeriod = readings.kind === "period";
  const values = isPeriod ? readings.period : readings.timeError;
  const steps = isPeriod ? values : values.map((v, i) => v - (values[i - 1] ?? Number.NaN));
  const scatter = robustDeviation(steps, median(steps));
  const digit = (readings.resolution ?? 1e-15) * (isPeriod ? readings.nominalPeriod : 1);
  if (!(scatter > 0) || (values.length * digit) / (3.545 * scatter) > chance) return [];
  const found: number[] = [];
  for (let i = 1; i < values.length; i++) if (values[i] === values[i - 1]) found.push(i);
  return found;
}
