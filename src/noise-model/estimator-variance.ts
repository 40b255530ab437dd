import type { EdgeEvents } from "./edge-events.ts";
import { EdgeFilter, firstAt, phaseAt } from "./edge-filter.ts";
import type { Levels } from "./levels.ts";
import type { RunVariances } from "./longer-run.ts";
import { type Transition, transition } from "./transition.ts";

/**
 * Variance of a linear estimate of the slope, by the same covariance that the best fit has.
 *
 *   var Σ w_k·z_k = pm·Σ w_k²/m_k + var Σ w_k·x_k,  z counted from the first edge of each stretch
 *
 * @param events - the record
 * @param levels - noise levels over σ²
 * @param times - flicker ladder
 * @param weights - weight of each event; those of the starts are set so that each stretch has none in all
 * @returns variance about the deterministic rate and about the rate over the run; over σ²
 *
 * Source: own derivation: the sum as one more state. Equals wᵀ·V·w with the full covariance (a test).
 */
export function estimatorVariance(
  events: EdgeEvents,
  levels: Levels,
  times: Float64Array,
  weights: Float64Array,
): RunVariances {
  const { step, count, starts, duration } = events;
  const filter = new EdgeFilter(levels, times, 0);
  const known = new Map<number, Transition>();
  const own = weights.slice();
  for (let k = step.length - 1, sum = 0; k >= 0; k--) {
    if (starts[k] === 1) {
      own[k] = -sum;
      sum = 0;
    } else sum += own[k]!;
  }
  let edges = 0;
  for (let k = 0; k < step.length; k++) {
    const dt = step[k]!;
    const m = count[k]!;
    edges += (own[k]! * own[k]! * levels.pm) / m;
    if (dt === 0) continue;
    const key = dt + 1e9 * m;
    let t = known.get(key);
    if (t === undefined) {
      t = transition(levels, times, dt, m);
      known.set(key, t);
    }
    filter.advance(t);
    if (own[k] !== 0) filter.accumulate(own[k]!);
  }
  const { covariance: p, order: n } = filter;
  const sum = p[n + 1]!;
  const run = sum - (2 * p[firstAt]!) / duration + p[phaseAt]! / (duration * duration);
  return { steady: edges + sum, overRun: edges + Math.max(0, run) };
}
