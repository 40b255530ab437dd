import { robustDeviation } from "../numeric/index.ts";
import type { Readings } from "../readings/index.ts";

/** Expected number of equal neighbours by chance above which equality says nothing. */
const chance = 0.1;

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
  const values = readings.kind === "period" ? readings.period : readings.timeError;
  const step = readings.kind === "period" ? steps(values) : values.slice();
  const scale = readings.kind === "period" ? readings.nominalPeriod : 1;
  const scatter = robustDeviation(readings.kind === "period" ? values : differences(step), 0);
  const digit = (readings.resolution ?? 1e-15) * scale;
  if (!(scatter > 0) || (values.length * digit) / (3.545 * scatter) > chance) return [];
  const found: number[] = [];
  for (let i = 1; i < values.length; i++) if (values[i] === values[i - 1]) found.push(i);
  return found;
}

const steps = (values: Float64Array) => values;

const differences = (x: Float64Array) => x.map((v, i) => (i === 0 ? Number.NaN : v - x[i - 1]!));
