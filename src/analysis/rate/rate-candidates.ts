import type { PeriodReadings, Readings, TimeErrorReadings } from "../../readings/index.ts";
import { presentPlaces, valuesAt } from "../../readings/index.ts";
import { edgeRecord } from "./edge-record.ts";
import { endToEndSlope } from "./end-to-end-slope.ts";
import {
  type EstimatorResponse,
  endToEndResponse,
  independentReadingsResponse,
  lineFitResponse,
  meanOfReadingsResponse,
} from "./estimator-response.ts";
import { lineFitSlope } from "./line-fit-slope.ts";
import { meanOfReadingsSlope } from "./mean-of-readings-slope.ts";
import { type NoiseRecord, noiseRecord } from "./noise-record.ts";
import type { EstimatorMethod } from "./rate-estimate.ts";

/** A slope and what must be known to judge it. */
export interface RateCandidate {
  readonly method: EstimatorMethod;
  readonly slope: number;
  readonly response: EstimatorResponse | null;
  readonly noise: NoiseRecord;
  readonly why: string;
  /** Why the method answers another question than asked; empty where it does not. */
  readonly against: string;
}

/** The slopes of a record by all methods. */
export interface RateCandidates {
  readonly candidates: readonly RateCandidate[];
  /** Standard deviation of a single reading's rate; dimensionless; NaN for fewer than two. */
  readonly singleDeviation: number;
  /** Readings that count. */
  readonly count: number;
  /** Length of the run in intervals of the noise. */
  readonly intervals: number;
}

/**
 * Slopes of a record by the three methods, with the noise found in it.
 *
 * @param readings - the record; at least one reading not missing
 * @returns candidates in the order mean of readings, end to end, line fit
 * @throws RangeError if every reading is missing
 *
 * Source: see the single estimators. Exact case: a constant period P gives the same slope by all three.
 */
export function rateCandidates(readings: Readings): RateCandidates {
  return readings.kind === "period" ? ofPeriods(readings) : ofTimeErrors(readings);
}

function ofPeriods(readings: PeriodReadings): RateCandidates {
  const { nominalPeriod, backToBack } = readings;
  const record = edgeRecord(readings);
  const kept = presentPlaces(readings.period);
  const cycles = valuesAt(readings.cycles, kept);
  const advance = valuesAt(readings.period, kept);
  for (let i = 0; i < advance.length; i++) advance[i] = cycles[i]! * (nominalPeriod - advance[i]!);
  const single = noiseRecord(readings, record);
  const uneven = unevenness(cycles);
  const mean: RateCandidate = {
    method: "mean_of_readings",
    slope: meanOfReadingsSlope(advance, cycles, nominalPeriod),
    response: backToBack
      ? meanOfReadingsResponse(cycles, record.stretches, nominalPeriod, single.readings.interval)
      : independentReadingsResponse(cycles),
    noise: single.readings,
    why: !backToBack
      ? "dead time makes the errors of the readings independent"
      : record.stretches === 1
        ? "back to back: only the first and the last edge count"
        : `gaps leave ${record.stretches} stretches, of which the end edges count`,
    against: uneven,
  };
  const broken = record.joined ? "" : record.why;
  const { edge, x } = record;
  const ends: RateCandidate = {
    method: "end_to_end",
    slope: record.joined ? endToEndSlope(edge, x, nominalPeriod) : Number.NaN,
    response: record.joined ? endToEndResponse(edge, nominalPeriod, single.edges.interval) : null,
    noise: single.edges,
    why: record.why || "the first and the last edge, whatever lies between",
    against: broken || uneven,
  };
  const line: RateCandidate = {
    method: "line_fit",
    slope: record.joined ? lineFitSlope(edge, x, nominalPeriod) : Number.NaN,
    response: record.joined ? lineFitResponse(edge, nominalPeriod, single.edges.interval) : null,
    noise: single.edges,
    why: record.why || "every edge counts",
    against: broken || uneven || single.edges.curved,
  };
  const intervals =
    backToBack && record.joined
      ? (edge[edge.length - 1]! * nominalPeriod) / single.readings.interval
      : kept.length;
  return {
    candidates: [mean, ends, line],
    singleDeviation: standardDeviation(advance.map((a, i) => a / (cycles[i]! * nominalPeriod))),
    count: kept.length,
    intervals,
  };
}

function ofTimeErrors(readings: TimeErrorReadings): RateCandidates {
  const { timeError, spacing } = readings;
  const kept = presentPlaces(timeError);
  if (kept.length === 0) throw new RangeError("rateCandidates: readings must not all be missing");
  const edge = Float64Array.from(kept);
  const x = valuesAt(timeError, kept);
  const noise = noiseRecord(readings, { edge, x }).edges;
  const rates = x.slice(1).map((v, i) => (v - x[i]!) / ((edge[i + 1]! - edge[i]!) * spacing));
  const enough = x.length >= 2;
  const of = (slope: typeof endToEndSlope) => {
    if (!enough) return Number.NaN;
    // The instants are those of the time base, so the slope itself is the rate: dx/dt = f/f₀ − 1.
    const r = slope(edge, x, spacing);
    return r / (1 + r);
  };
  const ends = enough ? endToEndResponse(edge, spacing, spacing) : null;
  const few = enough ? "" : "one reading of the time error gives no rate";
  const candidates: RateCandidate[] = [
    {
      method: "mean_of_readings",
      slope: of(endToEndSlope),
      response: ends,
      noise,
      why: "the mean of the differences, of which only the first and the last reading are left",
      against: few,
    },
    {
      method: "end_to_end",
      slope: of(endToEndSlope),
      response: ends,
      noise,
      why: "the first and the last reading, whatever lies between",
      against: few,
    },
    {
      method: "line_fit",
      slope: of(lineFitSlope),
      response: enough ? lineFitResponse(edge, spacing, spacing) : null,
      noise,
      why: "every reading counts",
      against: few || noise.curved,
    },
  ];
  const span = enough ? edge[edge.length - 1]! - edge[0]! : 0;
  return {
    candidates,
    singleDeviation: standardDeviation(rates),
    count: kept.length - 1,
    intervals: span,
  };
}

function unevenness(cycles: Float64Array): string {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (let i = 0; i < cycles.length; i++) {
    least = Math.min(least, cycles[i]!);
    most = Math.max(most, cycles[i]!);
  }
  return most > 2 * least + 1
    ? `the readings hold from ${least} to ${most} cycles, too unlike each other to show their noise`
    : "";
}

function standardDeviation(rates: Float64Array): number {
  const n = rates.length;
  if (n < 2) return Number.NaN;
  // Rounding of the mean is no scatter.
  if (rates.every((rate) => rate === rates[0])) return 0;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += rates[i]! / n;
  let square = 0;
  for (let i = 0; i < n; i++) square += (rates[i]! - mean) ** 2;
  return Math.sqrt(square / (n - 1));
}
