import type { CounterParameters } from "../stages/counter/index.ts";
import { averageSelection, type EdgeSelection, edgeSelection, isChoice } from "./edge-selection.ts";
import { type ErrorLaw, gaussianLaw } from "./error-law.ts";
import { lagWeight } from "./lag-weight.ts";
import { endPoints, sumOfSquares, type Weighting } from "./weighting.ts";

/** The estimators a plan is made for, as `run` names them. */
export type Estimator = "mean_of_readings" | "line_fit";

/** A drift of the edges in a wait by less than this part of their jitter makes no odds. */
const still = 0.05;

/** What of a counter decides which edges it stamps. */
export type GateSetting = Pick<CounterParameters, "technique" | "gate" | "deadTime">;

/** Which edges a counter stamps, on the average. */
export interface GateTiming {
  /** From start edge to stop edge of a reading; s. For stamps one by one the spacing. */
  readonly gate: number;
  /** From the start of one reading to that of the next; s. */
  readonly spacing: number;
  /** Longest wait for the first edge; s. */
  readonly wait: number;
  /** Readings from stop edge to stop edge, or single stamps: the first reading has no length. */
  readonly isStamped: boolean;
  /** Errors of the stamps, as which edges are caught makes them; null where it has no say. */
  readonly selection: EdgeSelection | null;
}

/**
 * Whether periods are so much alike that no wait of the counter ends elsewhere among the edges.
 *
 * @param setting - technique, gate and dead time
 * @param periods - periods of the edges; s
 * @param period - the period to compare them with; s
 * @param jitter - rms jitter of an edge; s
 */
export function isStill(
  { gate, deadTime }: GateSetting,
  periods: readonly number[],
  period: number,
  jitter: number,
): boolean {
  const wait = Math.max(gate === "single" ? 0 : gate, deadTime);
  return periods.every((each) => wait * Math.abs(each - period) <= still * jitter * period);
}

/**
 * Which edges a counter stamps.
 *
 * A reciprocal counter takes the first edge after its gate; a direct counter times its gates by itself; a
 * time-interval counter stamps the first edge after each of its starts, every second with a single gate.
 *
 * @param setting - technique, gate and dead time
 * @param periods - periods of the edges in counter time, at moments through the run; s, > 0
 * @param jitter - rms jitter of an edge; s, >= 0
 * @param law - how that jitter is distributed; asked for only where it matters
 * @returns average spacings; s
 */
export function gateTiming(
  setting: GateSetting,
  periods: readonly number[],
  jitter: number,
  law: () => ErrorLaw = () => gaussianLaw,
): GateTiming {
  const period = periods.reduce((sum, each) => sum + each, 0) / periods.length;
  const { technique, gate, deadTime } = setting;
  if (technique === "time_interval") {
    const spacing = Math.max(gate === "single" ? 1 : gate, period);
    // Where few edges lie within the noise, the starts are taken to keep clear of them.
    const selection =
      period < jitter ? edgeSelection([spacing], period, jitter, law(), true) : null;
    return { gate: spacing, spacing, wait: period, isStamped: true, selection };
  }
  if (technique === "direct") {
    const length = gate === "single" ? period : gate;
    const spacing = length + deadTime;
    return { gate: length, spacing, wait: period, isStamped: false, selection: null };
  }
  const waits = [gate === "single" ? 0 : gate];
  if (deadTime > 0) waits.push(deadTime);
  const moments = isStill(setting, periods, period, jitter) ? [period] : periods;
  const hasChoice = moments.some((each) => isChoice(waits, each, jitter));
  const selection = averageSelection(waits, moments, jitter, hasChoice ? law() : gaussianLaw);
  const [open = 1, closed = 0] = selection.edges;
  const spacing = (open + closed) * period;
  return { gate: open * period, spacing, wait: period, isStamped: false, selection };
}

/**
 * What the choice of edges adds to the variance of an estimate whose edges were taken to have independent
 * errors of variance `jitter`².
 *
 * A reading whose start and stop edge are caught in different ways is off by the difference of their mean
 * errors over the gate, and averaging does not help; the first stamp of a run is caught in a way of its own.
 *
 * @param timing - which edges are stamped
 * @param estimator - mean of the readings, or a line
 * @param readings - K; integer >= `fewestReadings`
 * @param jitter - rms jitter of an edge; s
 * @returns mean square added; dimensionless, may be negative
 *
 * Source: own derivation, from `edgeSelection`. Exact case: no choice of edges adds nothing.
 */
export function selectionExcess(
  timing: GateTiming,
  estimator: Estimator,
  readings: number,
  jitter: number,
): number {
  const { selection, gate, isStamped } = timing;
  if (selection === null) return 0;
  const square = jitter * jitter;
  const { means, variances, covariances, firstMean, firstVariance } = selection;
  const last = means.length - 1;
  const weighting = weightingOf(timing, estimator, readings);
  if (weighting.kind === "gates") {
    const spread = variances[0]! + variances[last]! - 2 * square - 2 * covariances[0]!;
    const between = (2 * covariances[last]! * (readings - 1)) / readings;
    // The first start edge is caught in a way of its own.
    const bias = means[0]! - means[last]! + (means[last]! - firstMean) / readings;
    const first = (firstVariance - variances[last]!) / (readings * readings);
    return ((spread - between) / readings + bias * bias + first) / (gate * gate);
  }
  if (weighting.kind !== "line") return 0;
  const first =
    firstVariance - variances[last]! + (firstMean - means[last]!) * (firstMean - means[last]!);
  const { stamps, spacing } = weighting;
  const firstWeight = 6 / (stamps * (stamps + 1) * spacing);
  const isAdjacent = stamps === readings + (isStamped ? 0 : 1);
  const adjacent = isAdjacent ? lagWeight(weighting, 1) : 0;
  return (
    (variances[0]! - square) * sumOfSquares(weighting) +
    2 * covariances[0]! * adjacent +
    first * firstWeight * firstWeight
  );
}

/**
 * What the choice of edges adds to the variance of a single reading, as `selectionExcess` has it, in the
 * settled state.
 *
 * @param timing - which edges are stamped
 * @param jitter - rms jitter of an edge; s
 * @returns mean square added; dimensionless, may be negative
 */
export function readingExcess(timing: GateTiming, jitter: number): number {
  const { selection, gate } = timing;
  if (selection === null) return 0;
  const { means, variances, covariances } = selection;
  const last = means.length - 1;
  const bias = means[0]! - means[last]!;
  const spread = variances[0]! + variances[last]! - 2 * jitter * jitter - 2 * covariances[0]!;
  return (spread + bias * bias + selection.wander) / (gate * gate);
}

/**
 * How an estimator weights the stamps of K readings.
 *
 * @param timing - which edges are stamped
 * @param estimator - mean of the readings, or a line fitted to the accumulated time error
 * @param readings - K; integer >= `fewestReadings`
 */
export function weightingOf(timing: GateTiming, estimator: Estimator, readings: number): Weighting {
  const { gate, spacing, isStamped } = timing;
  const hasGaps = spacing > gate;
  const spans = isStamped ? readings - 1 : readings;
  if (estimator === "line_fit" && !hasGaps) return { kind: "line", stamps: spans + 1, spacing };
  return hasGaps ? { kind: "gates", readings, gate, spacing } : endPoints(spans * spacing, spacing);
}

/**
 * The fewest readings that give a rate.
 *
 * @param timing - which edges are stamped
 * @returns 1, or 2 where a reading is a single stamp
 */
export function fewestReadings(timing: GateTiming): number {
  return timing.isStamped ? 2 : 1;
}

/**
 * Length of a run that gives K readings.
 *
 * @param timing - which edges are stamped
 * @param readings - K; integer >= 1
 * @returns s
 */
export function lengthOf(timing: GateTiming, readings: number): number {
  const last = timing.isStamped ? 0 : timing.gate;
  return timing.wait + (readings - 1) * timing.spacing + last;
}

/**
 * Readings that a run gives; the inverse of `lengthOf`.
 *
 * @param timing - which edges are stamped
 * @param length - of the run; s, >= 0
 * @returns integer >= 0
 */
export function readingsIn(timing: GateTiming, length: number): number {
  const beyondFirst = (length - lengthOf(timing, 1)) / timing.spacing;
  return Math.max(0, Math.floor(beyondFirst * (1 + 1e-14) + 1e-9) + 1);
}
