import type { PeriodReadings, Readings } from "../readings/readings.ts";
import { edgeRecord } from "./edge-record.ts";
import { endToEndSlope } from "./end-to-end-slope.ts";
import {
  type EstimatorResponse,
  endToEndResponse,
  independentReadingsResponse,
  lineFitResponse,
  meanOfReadingsResponse,
} from "./estimator-response.ts";
import { honestInterval } from "./honest-interval.ts";
import { lineFitSlope } from "./line-fit-slope.ts";
import { meanOfReadingsSlope } from "./mean-of-readings-slope.ts";
import { nextRunDeviation } from "./next-run-deviation.ts";
import { type NoiseRecord, noiseRecord } from "./noise-record.ts";
import type { EstimatorMethod, RateEstimate } from "./rate-estimate.ts";
import { rateOfSlope } from "./rate-of-slope.ts";

/** What is known beside the readings. */
export interface RateOptions {
  /** Half-width of a bound on what shifts every reading alike (the time base); dimensionless, >= 0. */
  readonly systematicBound?: number;
}

/** A slope and what must be known to judge it. */
interface Candidate {
  readonly method: EstimatorMethod;
  readonly slope: number;
  readonly response: EstimatorResponse | null;
  readonly noise: NoiseRecord;
  readonly why: string;
  /** Why the method answers another question than asked; empty where it does not. */
  readonly against: string;
}

/** Readings below which no noise can be told from so few. */
const leastReadings = 5;

/**
 * Rate by three estimators, each with the uncertainty that follows from the noise found in the readings.
 *
 * @param readings - the record; at least one reading not missing
 * @param options - what is known beside it
 * @returns estimates in the order mean of readings, end to end, line fit
 * @throws RangeError if every reading is missing
 *
 * Source: own derivation; see the single estimators. Exact case: a constant period P gives T/P − 1 by all
 * three, and no uncertainty, since a record without scatter knows none.
 */
export function estimateRates(readings: Readings, options: RateOptions = {}): RateEstimate[] {
  const { candidates, naive, count, intervals } =
    readings.kind === "period" ? ofPeriods(readings) : ofTimeErrors(readings);
  return candidates.map((c) =>
    judgeCandidate(c, naive, count, intervals, options.systematicBound ?? 0),
  );
}

function judgeCandidate(
  candidate: Candidate,
  naive: number,
  count: number,
  intervals: number,
  systematicBound: number,
): RateEstimate {
  const { method, slope, response, noise } = candidate;
  const rate = rateOfSlope(slope);
  const common = {
    method,
    rate,
    secondsPerDay: rate * 86400,
    naiveStandardUncertainty: naive,
    systematicBound,
  };
  const { hypotheses } = noise;
  const refused =
    candidate.against !== "" && response === null
      ? candidate.against
      : count < leastReadings
        ? `${count} readings are too few to know their own noise; at least ${leastReadings} are needed`
        : hypotheses.length === 0
          ? "the readings do not scatter at all, which says nothing about how sure they are"
          : "";
  if (refused !== "" || response === null) {
    return {
      ...common,
      standardUncertainty: Number.NaN,
      interval95: [Number.NaN, Number.NaN],
      steadyStandardUncertainty: null,
      steadyInterval95: null,
      nextRunStandardDeviation: Number.NaN,
      applies: false,
      why: refused,
    };
  }
  const found = honestInterval(hypotheses, response, noise.intervals);
  const around = (half: number): [number, number] => [
    rateOfSlope(slope - half),
    rateOfSlope(slope + half),
  ];
  return {
    ...common,
    standardUncertainty: found.standardUncertainty,
    interval95: around(found.halfWidth),
    steadyStandardUncertainty: found.steady?.standardUncertainty ?? null,
    steadyInterval95: found.steady === null ? null : around(found.steady.halfWidth),
    nextRunStandardDeviation: nextRunDeviation(hypotheses, intervals, noise.independent),
    applies: candidate.against === "",
    why: [candidate.against || candidate.why, found.steadyWhy].filter((s) => s !== "").join("; "),
  };
}

function ofPeriods(readings: PeriodReadings) {
  const { nominalPeriod, backToBack } = readings;
  const record = edgeRecord(readings);
  const kept = [...readings.period.keys()].filter((i) => !Number.isNaN(readings.period[i]!));
  const cycles = Float64Array.from(kept, (i) => readings.cycles[i]!);
  const advance = Float64Array.from(
    kept,
    (i) => readings.cycles[i]! * (nominalPeriod - readings.period[i]!),
  );
  const single = noiseRecord(readings, record);
  const uneven = unevenness(cycles);
  const mean: Candidate = {
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
  const ends: Candidate = {
    method: "end_to_end",
    slope: record.joined ? endToEndSlope(edge, x, nominalPeriod) : Number.NaN,
    response: record.joined ? endToEndResponse(edge, nominalPeriod, single.edges.interval) : null,
    noise: single.edges,
    why: record.why || "the first and the last edge, whatever lies between",
    against: broken || uneven,
  };
  const line: Candidate = {
    method: "line_fit",
    slope: record.joined ? lineFitSlope(edge, x, nominalPeriod) : Number.NaN,
    response: record.joined ? lineFitResponse(edge, nominalPeriod, single.edges.interval) : null,
    noise: single.edges,
    why: record.why || "every edge counts",
    against: broken || uneven || single.edges.curved,
  };
  const intervals = backToBack
    ? (edge[edge.length - 1]! * nominalPeriod) / single.readings.interval
    : kept.length;
  return {
    candidates: [mean, ends, line],
    naive: naiveUncertainty(advance.map((a, i) => a / (cycles[i]! * nominalPeriod))),
    count: kept.length,
    intervals,
  };
}

function ofTimeErrors(readings: Extract<Readings, { kind: "time_error" }>) {
  const { timeError, spacing } = readings;
  const kept = [...timeError.keys()].filter((i) => !Number.isNaN(timeError[i]!));
  if (kept.length === 0) throw new RangeError("estimateRates: readings must not all be missing");
  const edge = Float64Array.from(kept);
  const x = Float64Array.from(kept, (i) => timeError[i]!);
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
  const candidates: Candidate[] = [
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
  return { candidates, naive: naiveUncertainty(rates), count: kept.length - 1, intervals: span };
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

/** Standard deviation of single rates over √K. */
function naiveUncertainty(rates: Float64Array): number {
  const n = rates.length;
  if (n < 2) return Number.NaN;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += rates[i]! / n;
  let square = 0;
  for (let i = 0; i < n; i++) square += (rates[i]! - mean) ** 2;
  return Math.sqrt(square / (n - 1) / n);
}
