import type { EdgeEvents } from "./edge-events.ts";
import { type LeastSquares, LeastSquaresPass } from "./least-squares-pass.ts";
import type { Levels } from "./levels.ts";
import type { Transition } from "./transition.ts";

/** What a pass leaves behind for looking back from the end. */
export interface Trace {
  /** Transition before each event. */
  readonly transitions: Transition[];
  /** Gain at each event; order values an event. */
  readonly gains: Float64Array;
  /** Variance of the innovation at each event; 0 where nothing was seen. */
  readonly variances: Float64Array;
  /** Innovation of each column at each event; columns values an event. */
  readonly innovations: Float64Array;
}

/**
 * Generalised least squares of a record under given noise levels; equals dense generalised least squares with the full
 * covariance of the phases (a test).
 *
 * @param events - the record
 * @param levels - noise levels over σ²
 * @param times - flicker ladder; time units
 * @param keep - where given, makes the trace that is filled for looking back
 * @returns estimates, their variances over σ², and the likelihood
 *
 * Source: LeastSquaresPass.
 */
export function leastSquares(
  events: EdgeEvents,
  levels: Levels,
  times: Float64Array,
  keep?: (order: number, columns: number) => Trace,
): LeastSquares {
  const { step, count, starts, unseen, phase, regressors, duration } = events;
  const p = regressors.length;
  const pass = new LeastSquaresPass(levels, times, p);
  const { filter } = pass;
  const trace = keep?.(filter.order, p + 1);
  const values = new Float64Array(p + 1);
  const columns = regressors.map((regressor) => regressor.values);
  for (let k = 0; k < step.length; k++) {
    const m = count[k]!;
    if (step[k]! > 0) pass.advance(step[k]!, m);
    if (trace !== undefined) trace.transitions[k] = pass.transition!;
    if (starts[k] === 1) {
      pass.start();
      continue;
    }
    if (unseen[k] === 1) continue;
    values[0] = phase[k]!;
    for (let i = 0; i < p; i++) values[i + 1] = columns[i]![k]!;
    const variance = pass.observe(m, values);
    if (trace !== undefined) {
      trace.gains.set(filter.gain, k * filter.order);
      trace.variances[k] = variance;
      trace.innovations.set(filter.innovation, k * (p + 1));
    }
  }
  return pass.result(
    regressors.map((regressor) => regressor.overRun),
    duration,
  );
}
