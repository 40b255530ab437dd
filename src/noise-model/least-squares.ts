import { log } from "../numeric/index.ts";
import type { EdgeEvents } from "./edge-events.ts";
import { EdgeFilter, firstAt, phaseAt } from "./edge-filter.ts";
import type { Levels } from "./levels.ts";
import { smallInverse } from "./small-solve.ts";
import { type Transition, transition } from "./transition.ts";

/** A linear estimate: its value, and its variance with the levels as they were given. */
export interface Estimate {
  readonly value: number;
  readonly variance: number;
}

/** Generalised least squares of a record under one set of levels. Variances are in units of σ². */
export interface LeastSquares {
  /** Mean of the deterministic rate over the run; phase/time. */
  readonly steady: Estimate;
  /** (x_K − x_0)/T of the phase without the noise of its edges; phase/time. */
  readonly overRun: Estimate;
  /** Coefficients of the regressors. */
  readonly coefficients: Float64Array;
  /** Covariance of the coefficients over σ²; p×p. */
  readonly inverse: Float64Array;
  /** Weighted sum of squares; σ² times χ² of `degrees`. */
  readonly squares: number;
  readonly degrees: number;
  /** ln of the restricted likelihood, σ² integrated out, up to a constant of the record. */
  readonly logLikelihood: number;
  /** State after the last edge, coefficients taken out: the columns' states, and the covariance over σ². */
  readonly filter: EdgeFilter;
}

/** What the pass leaves behind for looking back from the end. */
export interface Trace {
  readonly transitions: Transition[];
  /** Gain at each event; order values an event. */
  readonly gains: Float64Array;
  /** Variance of the innovation at each event; 0 where nothing was seen. */
  readonly variances: Float64Array;
  /** Innovation of each column at each event; columns values an event. */
  readonly innovations: Float64Array;
}

/**
 * Generalised least squares of a record under given noise levels, edge by edge.
 *
 *   β = (Σ v_i·v_jᵀ/F)⁻¹·Σ v_i·v_z/F,   ln L = −½·(Σ ln F + ln det S + ν·ln rss)
 *
 * @param events - the record
 * @param levels - noise levels over σ²
 * @param times - flicker ladder; time units
 * @param keep - where given, is told the pass for looking back
 * @returns estimates, their variances over σ², and the likelihood
 *
 * Source: de Jong, Biometrika 75, 594 (1988); levels by restricted likelihood: Harville 1977. Equals dense generalised
 * least squares with the full covariance of the phases (a test).
 */
export function leastSquares(
  events: EdgeEvents,
  levels: Levels,
  times: Float64Array,
  keep?: (order: number, columns: number) => Trace,
): LeastSquares {
  const { step, count, starts, unseen, phase, regressors, duration } = events;
  const p = regressors.length;
  const columns = p + 1;
  const filter = new EdgeFilter(levels, times, columns);
  const trace = keep?.(filter.order, columns);
  const transitions = new Map<number, Transition>();
  const normal = new Float64Array(p * p);
  const right = new Float64Array(p);
  const values = new Float64Array(columns);
  const sums = regressors.map((regressor) => regressor.values);
  let squares = 0;
  let logs = 0;
  let product = 1;
  let seen = 0;
  let previous: Transition | undefined;
  let previousStep = -1;
  for (let k = 0; k < step.length; k++) {
    const dt = step[k]!;
    const m = count[k]!;
    if (dt > 0) {
      if (previous === undefined || dt !== previousStep || m !== previous.count) {
        // Steps and counts in one key: no step is so short that a sum with another count would meet it.
        const key = dt + 1e9 * m;
        previous = transitions.get(key);
        if (previous === undefined) {
          previous = transition(levels, times, dt, m);
          transitions.set(key, previous);
        }
        previousStep = dt;
      }
      filter.advance(previous);
      if (trace !== undefined) trace.transitions[k] = previous;
    }
    if (starts[k] === 1) {
      filter.start();
      continue;
    }
    if (unseen[k] === 1) continue;
    values[0] = phase[k]!;
    for (let i = 0; i < p; i++) values[i + 1] = sums[i]![k]!;
    const variance = filter.observe(m, values);
    const v = filter.innovation;
    const weight = 1 / variance;
    seen++;
    product *= variance;
    if (product > 1e200 || product < 1e-200) {
      logs += log(product);
      product = 1;
    }
    const z = v[0]! * weight;
    squares += v[0]! * z;
    for (let i = 0; i < p; i++) {
      right[i] = right[i]! + v[i + 1]! * z;
      const w = v[i + 1]! * weight;
      for (let j = 0; j <= i; j++) normal[i * p + j] = normal[i * p + j]! + w * v[j + 1]!;
    }
    if (trace !== undefined) {
      trace.gains.set(filter.gain, k * filter.order);
      trace.variances[k] = variance;
      trace.innovations.set(v, k * columns);
    }
  }
  logs += log(product);
  for (let i = 0; i < p; i++) {
    for (let j = 0; j < i; j++) normal[j * p + i] = normal[i * p + j]!;
  }
  const { inverse, logDeterminant } = smallInverse(normal, p);
  const coefficients = new Float64Array(p);
  for (let i = 0; i < p; i++) {
    for (let j = 0; j < p; j++) {
      coefficients[i] = coefficients[i]! + inverse[i * p + j]! * right[j]!;
    }
    squares -= coefficients[i]! * right[i]!;
  }
  const degrees = seen - p;
  const { covariance, states, order: n } = filter;
  const gained = (column: number) => states[column * n + phaseAt]! - states[column * n + firstAt]!;
  const known = covariance[0]! - 2 * covariance[1]! + covariance[n + 1]!;
  const steadyWeights = regressors.map((regressor) => regressor.overRun / duration);
  const runWeights = regressors.map((r, i) => (r.overRun - gained(i + 1)) / duration);
  const steady = combination(steadyWeights, coefficients, inverse);
  const run = combination(runWeights, coefficients, inverse);
  return {
    steady,
    overRun: {
      value: run.value + gained(0) / duration,
      variance: run.variance + known / (duration * duration),
    },
    coefficients,
    inverse,
    squares,
    degrees,
    logLikelihood: -0.5 * (logs + logDeterminant + degrees * log(Math.max(squares, 1e-290))),
    filter,
  };
}

/** Σ w_i·β_i and its variance. */
function combination(weights: number[], beta: Float64Array, inverse: Float64Array): Estimate {
  let value = 0;
  let variance = 0;
  for (let i = 0; i < weights.length; i++) {
    value += weights[i]! * beta[i]!;
    for (let j = 0; j < weights.length; j++) {
      variance += weights[i]! * weights[j]! * inverse[i * weights.length + j]!;
    }
  }
  return { value, variance };
}
