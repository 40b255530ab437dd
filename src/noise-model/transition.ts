import { poleVariance } from "./ladder.ts";
import type { Levels } from "./levels.ts";
import { doubled, type PoleStep, relaxingStep, walkingStep } from "./pole-step.ts";

/** What a block of equal steps does to the state; see EdgeFilter for the state. */
export interface Transition {
  readonly count: number;
  readonly poles: readonly PoleStep[];
  /** White FM and poles together: variance added to the phase, to the mean phase, and their covariance. */
  readonly phase: number;
  readonly meanMean: number;
  readonly meanPhase: number;
}

/** The rate processes of a model: a random walk if it has one, then the flicker ladder. */
export function poleCount(levels: Levels, times: Float64Array): number {
  return (levels.rw > 0 ? 1 : 0) + times.length;
}

/**
 * Exact transition over a block of equal steps.
 *
 * @param levels - noise levels
 * @param times - time constants of the flicker ladder; time units
 * @param dt - length of a step; time units, > 0
 * @param count - steps in the block; a power of two
 * @returns the transition
 *
 * Source: as PoleStep; mean of a random walk of the phase by Σk² and Σk. Exact case: without any noise all is 0.
 */
export function transition(
  levels: Levels,
  times: Float64Array,
  dt: number,
  count: number,
): Transition {
  const poles: PoleStep[] = [];
  if (levels.rw > 0) poles.push(walkingStep(dt, levels.rw));
  for (const time of times) poles.push(relaxingStep(dt, time, poleVariance * levels.ffm));
  const white = levels.wfm * dt;
  let phase = white * count;
  let meanPhase = (white * (count + 1)) / 2;
  let meanMean = (white * (count + 1) * (2 * count + 1)) / (6 * count);
  for (let i = 0; i < poles.length; i++) {
    let pole = poles[i]!;
    for (let m = count; m > 1; m /= 2) pole = doubled(pole);
    poles[i] = pole;
    phase += pole.phase;
    meanPhase += pole.meanPhase;
    meanMean += pole.meanMean;
  }
  return { count, poles, phase, meanMean, meanPhase };
}
