import { log } from "../numeric/index.ts";
import { EdgeFilter, firstAt, phaseAt } from "./edge-filter.ts";
import type { Levels } from "./levels.ts";
import { smallInverse } from "./small-solve.ts";
import { type Transition, transition } from "./transition.ts";

/** A linear estimate: its value, and its variance over σ². */
export interface Estimate {
  readonly value: number;
  readonly variance: number;
}

/** Generalised least squares of a record under one set of levels. Variances are over σ². */
export interface LeastSquares {
  /** Mean of the deterministic rate over the run; phase/time. */
  readonly steady: Estimate;
  /** (x_K − x_0)/T of the phase without the noise of its edges; phase/time. */
  readonly overRun: Estimate;
  /** Weight of each coefficient in the two. */
  readonly steadyWeights: readonly number[];
  readonly runWeights: readonly number[];
  /** Coefficients of the regressors. */
  readonly coefficients: Float64Array;
  /** Covariance of the coefficients over σ²; p×p. */
  readonly inverse: Float64Array;
  /** Weighted sum of squares; σ² times χ² of `degrees`. */
  readonly squares: number;
  readonly degrees: number;
  /** ln of the restricted likelihood, σ² integrated out, up to a constant of the record. */
  readonly logLikelihood: number;
  /** The filter after the last edge: states of readings and regressors, and the covariance over σ². */
  readonly filter: EdgeFilter;
}

/**
 * One pass of generalised least squares under one set of levels, event by event, so that a reading more costs no more
 * than itself.
 *
 *   β = (Σ v_i·v_jᵀ/F)⁻¹·Σ v_i·v_z/F,   ln L = −½·(Σ ln F + ln det S + ν·ln rss)
 *
 * Source: de Jong, Biometrika 75, 594 (1988); restricted likelihood: Harville, J. Amer. Stat. Assoc. 72, 320 (1977).
 */
export class LeastSquaresPass {
  readonly filter: EdgeFilter;
  /** Transition before the last event. */
  transition: Transition | undefined;
  private readonly known = new Map<number, Transition>();
  private readonly normal: Float64Array;
  private readonly right: Float64Array;
  private squares = 0;
  private logs = 0;
  private product = 1;
  private seen = 0;
  private lastStep = 0;
  private readonly levels: Levels;
  private readonly times: Float64Array;
  private readonly regressors: number;

  constructor(levels: Levels, times: Float64Array, regressors: number) {
    this.levels = levels;
    this.times = times;
    this.regressors = regressors;
    this.filter = new EdgeFilter(levels, times, regressors + 1);
    this.normal = new Float64Array(regressors * regressors);
    this.right = new Float64Array(regressors);
  }

  /** Goes on by `count` steps of length dt; time units. */
  advance(dt: number, count: number): void {
    let t = this.transition;
    if (t === undefined || dt !== this.lastStep || count !== t.count) {
      // Step and count in one key: no two pairs of them meet.
      const key = dt + 1e9 * count;
      t = this.known.get(key);
      if (t === undefined) {
        t = transition(this.levels, this.times, dt, count);
        this.known.set(key, t);
      }
      this.lastStep = dt;
      this.transition = t;
    }
    this.filter.advance(t);
  }

  /** Starts a stretch at the edge that is now. */
  start(): void {
    this.filter.start();
  }

  /**
   * Takes the mean phase of the last `count` edges, and the regressors there.
   *
   * @returns variance of the innovation over σ²
   */
  observe(count: number, values: Float64Array): number {
    const variance = this.filter.observe(count, values);
    const v = this.filter.innovation;
    const { normal, right, regressors: p } = this;
    const weight = 1 / variance;
    this.seen++;
    this.product *= variance;
    if (this.product > 1e200 || this.product < 1e-200) {
      this.logs += log(this.product);
      this.product = 1;
    }
    const z = v[0]! * weight;
    this.squares += v[0]! * z;
    for (let i = 0; i < p; i++) {
      const x = v[i + 1]!;
      right[i] = right[i]! + x * z;
      const w = x * weight;
      for (let j = 0; j <= i; j++) normal[i * p + j] = normal[i * p + j]! + w * v[j + 1]!;
    }
    return variance;
  }

  /**
   * The estimates so far.
   *
   * @param overRun - what each regressor adds to the phase over the run
   * @param duration - from the first edge to the last; time units
   */
  result(overRun: readonly number[], duration: number): LeastSquares {
    const { regressors: p, right, filter } = this;
    const normal = this.normal.slice();
    for (let i = 0; i < p; i++) {
      for (let j = 0; j < i; j++) normal[j * p + i] = normal[i * p + j]!;
    }
    const { inverse, logDeterminant } = smallInverse(normal, p);
    const coefficients = new Float64Array(p);
    let squares = this.squares;
    for (let i = 0; i < p; i++) {
      let sum = 0;
      for (let j = 0; j < p; j++) sum += inverse[i * p + j]! * right[j]!;
      coefficients[i] = sum;
      squares -= sum * right[i]!;
    }
    const degrees = Math.max(1, this.seen - p);
    squares = Math.max(squares, 1e-200);
    const { covariance: c, states, order: n } = filter;
    const gained = (column: number) =>
      states[column * n + phaseAt]! - states[column * n + firstAt]!;
    const unseen = c[0]! - 2 * c[1]! + c[n + 1]!;
    const steadyWeights = overRun.map((over) => over / duration);
    const runWeights = overRun.map((over, i) => (over - gained(i + 1)) / duration);
    const run = combination(runWeights, coefficients, inverse);
    const logs = this.logs + log(this.product);
    return {
      steady: combination(steadyWeights, coefficients, inverse),
      overRun: {
        value: run.value + gained(0) / duration,
        variance: run.variance + Math.max(0, unseen) / (duration * duration),
      },
      steadyWeights,
      runWeights,
      coefficients,
      inverse,
      squares,
      degrees,
      logLikelihood: -0.5 * (logs + logDeterminant + degrees * log(squares)),
      filter,
    };
  }
}

/** Σ w_i·β_i and its variance over σ². */
export function combination(
  weights: readonly number[],
  beta: Float64Array,
  inverse: Float64Array,
): Estimate {
  const p = weights.length;
  let value = 0;
  let variance = 0;
  for (let i = 0; i < p; i++) {
    value += weights[i]! * beta[i]!;
    for (let j = 0; j < p; j++) variance += weights[i]! * weights[j]! * inverse[i * p + j]!;
  }
  return { value, variance };
}
