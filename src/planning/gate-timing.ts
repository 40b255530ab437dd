import type { CounterParameters } from "../counter/counter-parameters.ts";
import { normalCdf } from "../numeric/normal-cdf.ts";
import { endPoints, type Weighting } from "./weighting.ts";

/** The estimators a plan is made for, as `run` names them. */
export type Estimator = "mean_of_readings" | "line_fit";

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
}

/**
 * Edges from one stamp to the first that is at least `wait` later.
 *
 * Where `wait` is a whole number of periods, jitter decides between that edge and the next:
 * E n = k + 1 − Φ((k·P − wait)/(√2·σ)), k the nearest whole number.
 *
 * @param wait - s, >= 0
 * @param period - of the edges; s, > 0
 * @param jitter - rms jitter σ of a stamp; s, >= 0
 * @returns average number of edges; >= 1
 */
export function edgesWithin(wait: number, period: number, jitter: number): number {
  const nearest = Math.round(wait / period);
  if (nearest < 1) return 1;
  const late = nearest * period - wait;
  const rounding = 1e-15 * wait;
  const inTime = jitter > 0 ? normalCdf(late / (Math.SQRT2 * jitter)) : late >= -rounding ? 1 : 0;
  return nearest + 1 - inTime;
}

/**
 * Which edges a counter stamps.
 *
 * A reciprocal counter takes the first edge after its gate; a direct counter times its gates by itself; a
 * time-interval counter stamps the first edge after each of its starts, every second with a single gate.
 *
 * @param setting - technique, gate and dead time
 * @param period - period of the edges in counter time; s, > 0
 * @param jitter - rms jitter of a stamp; s, >= 0
 * @returns average spacings; s
 */
export function gateTiming(setting: GateSetting, period: number, jitter: number): GateTiming {
  const { technique, gate, deadTime } = setting;
  if (technique === "time_interval") {
    const spacing = Math.max(gate === "single" ? 1 : gate, period);
    return { gate: spacing, spacing, wait: period, isStamped: true };
  }
  if (technique === "direct") {
    const length = gate === "single" ? period : gate;
    return { gate: length, spacing: length + deadTime, wait: period, isStamped: false };
  }
  const open = gate === "single" ? 1 : edgesWithin(gate, period, jitter);
  const closed = deadTime > 0 ? edgesWithin(deadTime, period, jitter) : 0;
  return {
    gate: open * period,
    spacing: (open + closed) * period,
    wait: period,
    isStamped: false,
  };
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
  return hasGaps ? { kind: "gates", readings, gate, spacing } : endPoints(spans * spacing);
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
