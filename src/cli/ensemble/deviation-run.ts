import type { RunOptions } from "../../chain/index.ts";
import {
  endToEndSlope,
  lineFitSlope,
  meanOfReadingsSlope,
  rateOfSlope,
} from "../../judgement/index.ts";
import type { Estimator } from "../../planning/index.ts";
import { estimateTruths, runReadings } from "../../planning/index.ts";
import type { Readings } from "../../readings/index.ts";
import { presentPlaces, valuesAt } from "../../readings/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { knownShift } from "./known-shift.ts";
import { recordRun } from "./record-run.ts";

/** A run that shows how far an estimate strays from its truth. */
export interface DeviationJob {
  readonly kind: "deviation";
  /** The scenario with its counter set to the way of measuring. */
  readonly scenario: Scenario;
  readonly options: RunOptions;
  readonly estimator: Estimator;
  /** By how much steps lost or gained at random shift the rate on the average; dimensionless. */
  readonly slipRate: number;
}

/** Stamps kept one by one, so that a line is fitted to every one of them. */
export const mostStamps: number = 1 << 20;

/**
 * Runs one member of an ensemble and compares its estimate with its truth.
 *
 * @returns estimate less rate over the run, freed from the known offset of the time base and the known rate of
 *   slips; dimensionless. NaN where the run gave no rate
 */
export function deviationRun({ scenario, options, estimator, slipRate }: DeviationJob): number {
  const record = recordRun(scenario, options, mostStamps);
  const least = scenario.counter.technique === "time_interval" ? 2 : 1;
  if (record.start.length < least) return Number.NaN;
  const rate = estimateOf(runReadings(scenario, record), estimator);
  const truth = estimateTruths(scenario, record)[estimator].rateOverRun;
  const shift = knownShift(scenario);
  return rate - truth + shift + rate * shift - slipRate;
}

/** The estimate alone, without a look at its uncertainty. */
function estimateOf(readings: Readings, estimator: Estimator): number {
  if (readings.kind === "time_error") return ofTimeErrors(readings, estimator);
  const { period, cycles, nominalPeriod } = readings;
  const kept = presentPlaces(period);
  const counts = valuesAt(cycles, kept);
  const advance = valuesAt(period, kept);
  for (let i = 0; i < advance.length; i++) advance[i] = counts[i]! * (nominalPeriod - advance[i]!);
  if (estimator === "mean_of_readings") {
    return rateOfSlope(meanOfReadingsSlope(advance, counts, nominalPeriod));
  }
  const edge = new Float64Array(kept.length + 1);
  const x = new Float64Array(kept.length + 1);
  for (let i = 0; i < kept.length; i++) {
    edge[i + 1] = edge[i]! + counts[i]!;
    x[i + 1] = x[i]! + advance[i]!;
  }
  return rateOfSlope(lineFitSlope(edge, x, nominalPeriod));
}

function ofTimeErrors(
  { timeError, spacing }: Extract<Readings, { kind: "time_error" }>,
  estimator: Estimator,
): number {
  const kept = presentPlaces(timeError);
  const edge = Float64Array.from(kept);
  const x = valuesAt(timeError, kept);
  // The instants are those of the time base, so the slope itself is the rate.
  const slope = estimator === "line_fit" ? lineFitSlope : endToEndSlope;
  return slope(edge, x, spacing);
}
