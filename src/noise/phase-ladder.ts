import type { NoiseLevels } from "./noise-levels.ts";
import { relaxationLadder } from "./relaxation-ladder.ts";

/** Flicker PM as relaxation processes of the time error. */
export interface PhaseLadder {
  /** Time constants, ascending; s. */
  readonly timeConstants: Float64Array;
  /** Diffusions, as many; s²/s. */
  readonly diffusions: Float64Array;
  /** Variance of each process, also of the fast ones; s². */
  readonly variance: number;
  /** Time constants of those too fast to follow, which each edge draws anew; s. */
  readonly fastTimes: Float64Array;
}

/**
 * Flicker PM as a ladder of relaxation processes of the time error.
 *
 *   v = h₁·ln 10/(4π²·n),  D = 2v/T
 *
 * @param levels - noise levels; h₁ = 0 gives no term
 * @param finestScale - as in `relaxationLadder`; s, > 0
 * @returns time constants in s, diffusions in s, variance in s²
 * @throws RangeError as `relaxationLadder`
 *
 * Source: IEEE Std 1139: S_x = h₁/(4π²f). Exact case: h₁ = 0 gives nothing.
 */
export function phaseLadder(levels: NoiseLevels, finestScale: number): PhaseLadder {
  const ladder = relaxationLadder(levels, finestScale);
  const variance = (levels.h1 * ladder.variancePerLevel) / (4 * Math.PI * Math.PI);
  const none = new Float64Array(0);
  const timeConstants = variance > 0 ? ladder.timeConstants : none;
  return {
    timeConstants,
    diffusions: timeConstants.map((time) => (2 * variance) / time),
    variance,
    fastTimes: variance > 0 ? ladder.fastTimes : none,
  };
}
