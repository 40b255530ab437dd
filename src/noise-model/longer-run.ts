import type { EdgeEvents } from "./edge-events.ts";
import { ladder, slowerThanLadder } from "./ladder.ts";
import { leastSquares } from "./least-squares.ts";
import type { Levels } from "./levels.ts";

/** Variances of both rates that a run of some length would have under known levels; over σ². */
export interface RunVariances {
  readonly steady: number;
  readonly overRun: number;
}

/** Events that stand for a run that has not been made. */
const mostEvents = 200;

/**
 * What a regular run of so many readings would give under known levels.
 *
 * @param readings - number of readings; integer, >= 2
 * @param levels - noise levels over σ², of one reading's length
 * @param gap - dead time between readings; time units, 0 for back to back
 * @returns variances of both rates
 *
 * Source: leastSquares; longer runs by block means of the edges.
 */
export function runVariances(readings: number, levels: Levels, gap: number): RunVariances {
  let block = 1;
  while (readings / block > mostEvents) block *= 2;
  const blocks = Math.floor(readings / block);
  const apart = gap > 0;
  const duration = blocks * block * (1 + gap) - gap;
  const size = apart ? 2 * blocks : blocks + 1;
  const time = new Float64Array(size);
  const step = new Float64Array(size);
  const count = new Int32Array(size).fill(1);
  const starts = new Uint8Array(size);
  starts[0] = 1;
  for (let k = 1; k < size; k++) {
    if (apart) {
      // A group of readings as one over their span.
      starts[k] = 1 - (k % 2);
      step[k] = k % 2 === 1 ? block * (1 + gap) - gap : gap;
      time[k] = k % 2 === 1 ? step[k]! : 0;
    } else {
      step[k] = 1;
      count[k] = block;
      time[k] = (k - 1) * block + (block + 1) / 2;
    }
  }
  const events: EdgeEvents = {
    step,
    count,
    starts,
    unseen: new Uint8Array(size),
    phase: new Float64Array(size),
    regressors: [{ values: time, overRun: duration }],
    duration,
  };
  const spread = apart ? (block * (1 + gap) * (1 + gap)) / 1 : 1;
  const times = ladder(Math.max(1, block / 3), duration);
  const fit = leastSquares(events, { ...levels, pm: levels.pm * spread }, times);
  return {
    steady: fit.steady.variance + slowerThanLadder(times, duration) * levels.ffm,
    overRun: fit.overRun.variance,
  };
}
