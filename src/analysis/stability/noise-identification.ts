import { pow, RandomStream } from "../../numeric/index.ts";
import { decimated, lagOnePower, means, type SeriesKind } from "./lag-one-power.ts";
import { type NoiseType, noiseTypes } from "./noise-type.ts";
import { longRecordExponent } from "./reading-covariance.ts";
import { readingSimulator } from "./reading-simulator.ts";
import { requireFactor } from "./require-arguments.ts";

/** What the lag-1 autocorrelation says about the noise of a record. */
export interface NoiseIdentification {
  /** Estimate of α in S_y(f) ∝ f^α; dimensionless, NaN if the record is too short or does not vary. */
  readonly alpha: number;
  /** The type under which the estimate is the most usual; null if there is no estimate. */
  readonly best: NoiseType | null;
  /**
   * The types under which an estimate as far out as this one is not rarer than 5 %, from white PM down; all five if
   * there is no estimate. If every single type is rejected (a mixture): the two that enclose the estimate.
   */
  readonly notRejected: readonly NoiseType[];
  /** True if every single type is rejected at 5 %. */
  readonly mixed: boolean;
}

/** Fewer values than this say nothing about the type. */
const fewestValues = 5;
/** Values up to which the distribution of the estimate is simulated; beyond it narrows as 1/√n. */
const mostSimulated = 128;
const trials = 999;
/** A limit of long records farther than this from the simulated middle is not believed; dimensionless. */
const farthestLimit = 0.2;
const level = 0.05;

/**
 * Identifies the power-law noise of a record, and the types its length leaves open.
 *
 * α comes from the lag-1 autocorrelation, after a least-squares line is taken from time errors (a frequency offset
 * is no noise). The distribution of the estimate under each type is found by simulation of as many values (999
 * trials of a seeded stream, kept for later calls), and the type is chosen by it, not by rounding: the estimate is
 * biased in short records, and for sampled flicker PM, flicker FM and random-walk FM in long ones too (towards
 * 0.7, −1.45 and −2.4), where the integers belong to noise that is white or fractionally differenced step by step.
 *
 * @param data - evenly spaced time errors (s) or rates (dimensionless); N samples, NaN = gap, left out
 * @param kind - which of the two
 * @param m - averaging factor: time errors are decimated by m, rates averaged over m; integer, 1 <= m < N
 * @param deadTimeRatio - spacing of the starts of readings over their length; >= 1, rates only. With dead time
 *   readings look white under all of white PM, flicker PM and white FM: all stay open, best says white FM
 * @returns estimate, most usual type, types not rejected at 5 %
 * @throws RangeError if m or deadTimeRatio is outside the range
 *
 * Source: W. Riley and C. Greenhall, EFTF 2004; NIST SP 1065, section 5.5.3; the test by simulation is own derivation.
 * Exact case: a constant rate has no noise: alpha NaN, best null.
 */
export function identifyNoise(
  data: Float64Array,
  kind: SeriesKind,
  m = 1,
  deadTimeRatio = 1,
): NoiseIdentification {
  requireFactor("identifyNoise", m, 1, data.length);
  if (!(deadTimeRatio >= 1) || (kind === "time_error" && deadTimeRatio !== 1)) {
    throw new RangeError(
      `identifyNoise: deadTimeRatio must be >= 1, and 1 for time errors, got ${deadTimeRatio}`,
    );
  }
  const series = kind === "rate" ? means(data, m) : withoutLine(decimated(data, m));
  const count = series.reduce((values, value) => values + (Number.isNaN(value) ? 0 : 1), 0);
  const alpha =
    count < fewestValues ? Number.NaN : lagOnePower(series, series.length) + shiftOf(kind);
  if (!Number.isFinite(alpha)) {
    return { alpha: Number.NaN, best: null, notRejected: noiseTypes, mixed: false };
  }
  const verdicts = noiseTypes.map((type) => {
    // Only flicker PM knows its cutoff: f_h is half the sampling rate of the record before averaging.
    const cutoff = type === "flicker_pm" ? pow(2, Math.round(Math.log2(m))) : 1;
    const estimates = estimatesUnder(type, kind, simulatedSize(count), deadTimeRatio, cutoff);
    const limit = longRecordExponent(type, deadTimeRatio, cutoff);
    return { type, ...compare(alpha, estimates, limit, Math.max(1, count / mostSimulated)) };
  });
  const told = verdicts.filter(({ type }) => deadTimeRatio === 1 || !type.endsWith("_pm"));
  const best = told.reduce((a, b) => (b.distance < a.distance ? b : a)).type;
  const notRejected = verdicts.filter(({ rarity }) => rarity >= level).map(({ type }) => type);
  if (notRejected.length > 0) return { alpha, best, notRejected, mixed: false };
  const above = verdicts.filter(({ middle }) => middle >= alpha).slice(-1);
  const below = verdicts.filter(({ middle }) => middle < alpha).slice(0, 1);
  return { alpha, best, notRejected: [...above, ...below].map(({ type }) => type), mixed: true };
}

function shiftOf(kind: SeriesKind): number {
  return kind === "time_error" ? 2 : 0;
}

/**
 * Where an estimate lies among simulated ones from records `longer` times shorter than its own: spread shrinks as
 * 1/√longer about the limit of long records, bias as 1/longer. Where the limit is not near (the number of differences
 * taken depends on the length), the spread is shrunk about the simulated middle instead.
 */
function compare(
  alpha: number,
  estimates: Float64Array,
  limit: number,
  longer: number,
): { middle: number; distance: number; rarity: number } {
  const middle = estimates[(trials - 1) / 2]!;
  const centre = Math.abs(limit - middle) < farthestLimit ? limit : middle;
  const stretch = Math.sqrt(longer);
  const value = centre + (alpha - centre) * stretch + (middle - centre) * (1 - 1 / stretch);
  const quartile = estimates[value < middle ? (trials + 1) / 4 : (3 * trials - 1) / 4]!;
  let below = 0;
  let equal = 0;
  for (const estimate of estimates) {
    if (estimate < value) below++;
    else if (estimate === value) equal++;
  }
  const tail = Math.min(below, trials - below - equal) + equal;
  return {
    middle,
    distance: Math.abs(value - middle) / Math.abs(quartile - middle),
    rarity: Math.min(1, (2 * (tail + 1)) / (trials + 1)),
  };
}

/** Sizes for which distributions are made: each up to 16, then about every eighth part; rounded down, so never too narrow. */
function simulatedSize(count: number): number {
  if (count >= mostSimulated) return mostSimulated;
  const grain = count <= 16 ? 1 : pow(2, Math.floor(Math.log2(count)) - 3);
  return Math.floor(count / grain) * grain;
}

const distributions = new Map<string, Float64Array>();

/** Sorted estimates of α from simulated records of one noise type. */
function estimatesUnder(
  type: NoiseType,
  kind: SeriesKind,
  count: number,
  ratio: number,
  cutoff: number,
): Float64Array {
  const key = `${type}/${kind}/${count}/${ratio}/${cutoff}`;
  const known = distributions.get(key);
  if (known) return known;
  const readings = kind === "rate" ? count : count - 1;
  const draw = readingSimulator(type, readings, ratio, cutoff);
  const stream = new RandomStream("noise-identification", key);
  const y = new Float64Array(readings);
  const x = new Float64Array(readings + 1);
  const estimates = new Float64Array(trials);
  for (let trial = 0; trial < trials; trial++) {
    draw(stream, y);
    if (kind === "rate") {
      estimates[trial] = lagOnePower(y, readings);
    } else {
      x[0] = 0;
      for (let i = 0; i < readings; i++) x[i + 1] = x[i]! + y[i]!;
      estimates[trial] = lagOnePower(withoutLine(x), readings + 1) + shiftOf(kind);
    }
  }
  distributions.set(key, estimates.sort());
  return estimates;
}

/** Takes the least-squares line from a series, in place; gaps stay gaps. */
function withoutLine(series: Float64Array): Float64Array {
  let values = 0;
  let meanTime = 0;
  let mean = 0;
  for (let i = 0; i < series.length; i++) {
    if (Number.isNaN(series[i]!)) continue;
    values++;
    meanTime += (i - meanTime) / values;
    mean += (series[i]! - mean) / values;
  }
  let products = 0;
  let squares = 0;
  for (let i = 0; i < series.length; i++) {
    if (Number.isNaN(series[i]!)) continue;
    products += (i - meanTime) * (series[i]! - mean);
    squares += (i - meanTime) * (i - meanTime);
  }
  const slope = squares > 0 ? products / squares : 0;
  for (let i = 0; i < series.length; i++) series[i] = series[i]! - mean - slope * (i - meanTime);
  return series;
}
