import type { NoiseLevels } from "./noise-levels.ts";
import { relaxationLadder } from "./relaxation-ladder.ts";

/** An oscillator's frequency noise as processes that can be stepped exactly. */
export interface RateLadder {
  /** Time constants, ascending, a random walk last with T = ∞; s. */
  readonly timeConstants: Float64Array;
  /** Diffusions, as many; 1/s. */
  readonly diffusions: Float64Array;
  /** White FM with all flicker FM too fast to follow; 1/Hz. */
  readonly whiteLevel: number;
}

/**
 * White, flicker and random-walk FM as white noise, relaxation processes and a random walk.
 *
 *   D = 2v/T with v = h₋₁·ln 10/n;  random walk: D = 2π²·h₋₂;  white: h₀ + 4·v·Σ T of the fast
 *
 * The band of flicker FM ends at f_h: what a ladder lacks below that comes with its `end`.
 *
 * @param levels - noise levels; those that are 0 give no term
 * @param finestScale - as in `relaxationLadder`; s, > 0
 * @returns time constants in s, diffusions in 1/s, white level in 1/Hz
 * @throws RangeError as `relaxationLadder`
 *
 * Source: IEEE Std 1139 for h₋₂: a Wiener process of D a second has S_y = D/(2π²f²). Exact case: h₀ alone
 * gives no terms and h₀.
 */
export function rateLadder(levels: NoiseLevels, finestScale: number): RateLadder {
  const ladder = relaxationLadder(levels, finestScale);
  const { end } = ladder;
  const times = levels.hMinus1 > 0 ? [...(end === null ? [] : [end]), ...ladder.timeConstants] : [];
  const variance = levels.hMinus1 * ladder.variancePerLevel;
  const diffusions = times.map((time) => (2 * variance) / time);
  if (levels.hMinus2 > 0) {
    times.push(Infinity);
    diffusions.push(2 * Math.PI * Math.PI * levels.hMinus2);
  }
  return {
    timeConstants: Float64Array.from(times),
    diffusions: Float64Array.from(diffusions),
    whiteLevel: levels.h0 + 4 * variance * ladder.fastTime,
  };
}
