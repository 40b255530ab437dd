import { type PeriodReadings, presentPlaces, type Readings, valuesAt } from "../readings/index.ts";
import { edgeRecord } from "./edge-record.ts";
import { endToEndSlope } from "./end-to-end-slope.ts";
import { lineFitSlope } from "./line-fit-slope.ts";
import { meanOfReadingsSlope } from "./mean-of-readings-slope.ts";
import { type EstimatorMethod, estimatorMethods } from "./rate-estimate.ts";
import { rateOfSlope } from "./rate-of-slope.ts";

/** The rate by one of the plain estimators, and what is to be said of it. */
export interface PlainRate {
  readonly method: EstimatorMethod;
  /** f/f₀ − 1; NaN where the method cannot be used. */
  readonly rate: number;
  readonly why: string;
  /** Why the method cannot be used; empty where it can. */
  readonly against: string;
}

/** Rates by the plain estimators, and the scatter of the readings. */
export interface PlainRates {
  readonly rates: readonly PlainRate[];
  /** Standard deviation of a single reading's rate; dimensionless; NaN for fewer than two. */
  readonly singleDeviation: number;
  /** Readings that count. */
  readonly count: number;
}

/**
 * Rates of a record by the three plain estimators.
 *
 * @param readings - the record; at least one reading not missing
 * @returns rates in the order mean of readings, end to end, line fit
 * @throws RangeError if every reading is missing
 *
 * Source: see the single estimators. Exact case: a constant period gives the same rate by all three.
 */
export function plainRates(readings: Readings): PlainRates {
  return readings.kind === "period" ? ofPeriods(readings) : ofTimeErrors(readings);
}

function ofPeriods(readings: PeriodReadings): PlainRates {
  const { nominalPeriod, backToBack } = readings;
  const { edge, x, joined, why, stretches } = edgeRecord(readings);
  const kept = presentPlaces(readings.period);
  const cycles = valuesAt(readings.cycles, kept);
  const advance = valuesAt(readings.period, kept);
  for (let i = 0; i < advance.length; i++) advance[i] = cycles[i]! * (nominalPeriod - advance[i]!);
  const against = joined ? "" : why;
  const words: Record<EstimatorMethod, string> = {
    mean_of_readings: !backToBack
      ? "dead time makes the errors of the readings independent"
      : stretches === 1
        ? "back to back: only the first and the last edge count"
        : `gaps leave ${stretches} stretches, of which the end edges count`,
    end_to_end: why || "the first and the last edge, whatever lies between",
    line_fit: why || "every edge counts",
  };
  const slopes: Record<EstimatorMethod, number> = {
    mean_of_readings: meanOfReadingsSlope(advance, cycles, nominalPeriod),
    end_to_end: joined ? endToEndSlope(edge, x, nominalPeriod) : Number.NaN,
    line_fit: joined ? lineFitSlope(edge, x, nominalPeriod) : Number.NaN,
  };
  return {
    rates: estimatorMethods.map((method) => ({
      method,
      rate: rateOfSlope(slopes[method]),
      why: words[method],
      against: method === "mean_of_readings" ? "" : against,
    })),
    singleDeviation: standardDeviation(advance.map((a, i) => a / (cycles[i]! * nominalPeriod))),
    count: kept.length,
  };
}

function ofTimeErrors({ timeError, spacing }: Readings & { kind: "time_error" }): PlainRates {
  const kept = presentPlaces(timeError);
  if (kept.length === 0) throw new RangeError("plainRates: readings must not all be missing");
  const edge = Float64Array.from(kept);
  const x = valuesAt(timeError, kept);
  const enough = x.length >= 2;
  // The instants are those of the time base, so that the slope itself is the rate: dx/dt = f/f₀ − 1.
  const ends = enough ? endToEndSlope(edge, x, spacing) : Number.NaN;
  const line = enough ? lineFitSlope(edge, x, spacing) : Number.NaN;
  const against = enough ? "" : "one reading of the time error gives no rate";
  const rises = x.slice(1).map((v, i) => (v - x[i]!) / ((edge[i + 1]! - edge[i]!) * spacing));
  return {
    rates: [
      {
        method: "mean_of_readings",
        rate: ends,
        why: "the mean of the differences, of which only the first and the last reading are left",
        against,
      },
      {
        method: "end_to_end",
        rate: ends,
        why: "the first and the last reading, whatever lies between",
        against,
      },
      { method: "line_fit", rate: line, why: "every reading counts", against },
    ],
    singleDeviation: standardDeviation(rises),
    count: kept.length - 1,
  };
}

function standardDeviation(rates: Float64Array): number {
  const n = rates.length;
  if (n < 2) return Number.NaN;
  // Rounding of the mean is no scatter.
  if (rates.every((rate) => rate === rates[0])) return 0;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += rates[i]! / n;
  let square = 0;
  for (let i = 0; i < n; i++) square += (rates[i]! - mean) * (rates[i]! - mean);
  return Math.sqrt(square / (n - 1));
}
