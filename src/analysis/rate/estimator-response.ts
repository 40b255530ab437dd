import { pow } from "../../numeric/index.ts";
import { flickerPmAtEnds, flickerPmOfLine } from "./flicker-pm.ts";
import type { NoiseHypothesis } from "./noise-posterior.ts";

/** What one unit of each noise does to the variance of a slope. */
export interface EstimatorResponse {
  /** Variance of the slope for white measurement noise of unit variance; the level's reciprocal unit. */
  readonly measurement: number;
  /** For flicker PM of unit level (see flicker-pm.ts). */
  readonly flickerPm: number;
  /** For white FM of unit variance in one interval. */
  readonly whiteFm: number;
  /** For a beat of unit power in the time errors, at so many cycles an interval. */
  readonly beat: (frequency: number) => number;
}

/**
 * Variance of the difference of a beat's two ends, for unit power: 4 sin²(πfK). Where the ends happen to agree
 * that is not relied on: never less than for independent phases.
 */
function beatAtEnds(frequency: number, intervals: number): number {
  return Math.max(2, 4 * Math.sin(Math.PI * frequency * intervals) ** 2);
}

/**
 * Response of the slope from first edge to last.
 *
 * @param edge - number of each edge, ascending; N >= 2, dimensionless
 * @param nominalPeriod - nominal period T; s, > 0
 * @param interval - interval τ₀ to which the noise levels belong; s, > 0
 * @returns variances for unit levels, of which the measurement's is the variance of x in units of τ₀²
 *
 * Source: own derivation. Exact case: K equal intervals, 2/K² and 1/K.
 */
export function endToEndResponse(
  edge: Float64Array,
  nominalPeriod: number,
  interval: number,
): EstimatorResponse {
  const span = (edge[edge.length - 1]! - edge[0]!) * nominalPeriod;
  const intervals = span / interval;
  return {
    measurement: 2 / (intervals * intervals),
    flickerPm: flickerPmAtEnds(intervals) / (intervals * intervals),
    whiteFm: 1 / intervals,
    beat: (frequency) => beatAtEnds(frequency, intervals) / (intervals * intervals),
  };
}

/**
 * Response of the least-squares slope.
 *
 * @param edge - number of each edge, ascending; N >= 2, dimensionless
 * @param nominalPeriod - nominal period T; s, > 0
 * @param interval - interval τ₀ to which the noise levels belong; s, > 0
 * @returns variances for unit levels, as for endToEndResponse
 *
 * Source: own derivation; white FM moves all edges behind it, so its weights are the sums of the line's
 * weights from there on. Exact case: N edges τ₀ apart, 12/[N(N² − 1)] and 6(N² + 1)/[5N(N² − 1)].
 */
export function lineFitResponse(
  edge: Float64Array,
  nominalPeriod: number,
  interval: number,
): EstimatorResponse {
  const length = edge.length;
  const perInterval = nominalPeriod / interval;
  const first = edge[0]!;
  let mean = 0;
  for (let i = 0; i < length; i++) mean += edge[i]! - first;
  mean /= length;
  let square = 0;
  for (let i = 0; i < length; i++) square += (edge[i]! - first - mean) ** 2;
  let tail = 0;
  let whiteFm = 0;
  for (let i = length - 1; i > 0; i--) {
    tail += (edge[i]! - first - mean) / square;
    whiteFm += tail * tail * (edge[i]! - edge[i - 1]!);
  }
  const intervals = (edge[length - 1]! - first) * perInterval;
  return {
    measurement: 1 / (square * perInterval * perInterval),
    flickerPm: flickerPmOfLine(intervals),
    whiteFm: whiteFm / perInterval,
    // Envelope of 6·(sin u − u·cos u)/(K·u²), u = πfK: the phase at the ends is not relied on.
    beat: (frequency) => {
      const u = Math.PI * frequency * intervals;
      return (36 * (1 + u * u)) / (intervals * intervals * pow(u, 4));
    },
  };
}

/**
 * Response of the mean of readings.
 *
 * @param cycles - cycles of each reading that counts; >= 1 of them, dimensionless
 * @param stretches - unbroken stretches of readings, each with two end edges; integer >= 1
 * @param nominalPeriod - nominal period T; s, > 0
 * @param interval - interval τ₀ to which the noise levels belong; s, > 0
 * @returns variances for unit levels, as for endToEndResponse
 *
 * Source: own derivation; within a stretch all edges but the two at its ends cancel. Exact case: one stretch
 * gives the response from end to end.
 */
export function meanOfReadingsResponse(
  cycles: Float64Array,
  stretches: number,
  nominalPeriod: number,
  interval: number,
): EstimatorResponse {
  let count = 0;
  for (let i = 0; i < cycles.length; i++) count += cycles[i]!;
  const span = count * nominalPeriod;
  const intervals = span / interval;
  return {
    measurement: (2 * stretches) / (intervals * intervals),
    flickerPm: (stretches * flickerPmAtEnds(intervals / stretches)) / (intervals * intervals),
    whiteFm: 1 / intervals,
    beat: (frequency) =>
      (stretches === 1 ? beatAtEnds(frequency, intervals) : 4 * stretches) /
      (intervals * intervals),
  };
}

/**
 * Response of the mean of readings with dead time, in which the errors of single readings are independent.
 *
 * @param cycles - cycles of each reading that counts; >= 1 of them, dimensionless
 * @returns variances for unit levels, of which the measurement's is the variance of one reading's rate
 *
 * Source: own derivation. Exact case: K equal readings, 1/K.
 */
export function independentReadingsResponse(cycles: Float64Array): EstimatorResponse {
  let count = 0;
  let square = 0;
  for (let i = 0; i < cycles.length; i++) {
    count += cycles[i]!;
    square += cycles[i]! * cycles[i]!;
  }
  return {
    measurement: square / (count * count),
    // Not told from white noise in readings that are apart.
    flickerPm: 0,
    whiteFm: square / (count * count),
    beat: () => 0,
  };
}

/**
 * Variance of a slope from the measurement's noise under one hypothesis, beats included.
 *
 * @param h - level, kinds of jitter and beats of the measurement
 * @param response - of the estimator, for the same units
 * @returns the variance; dimensionless
 *
 * Exact case: white PM without beats, level times the response.
 */
export function measurementVariance(
  h: Pick<NoiseHypothesis, "level" | "whitePm" | "flickerPm" | "beats" | "rounding">,
  response: EstimatorResponse,
): number {
  let variance = h.level * (h.whitePm * response.measurement + h.flickerPm * response.flickerPm);
  for (const beat of h.beats) variance += beat.power * response.beat(beat.frequency);
  if (h.rounding !== undefined) variance += h.rounding * response.whiteFm;
  return variance;
}
