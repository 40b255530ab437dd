import { log } from "../numeric/index.ts";

/** Variance of each relaxation process, one a decade, of a flicker floor with Allan variance 1: ln 10/(2·ln 2). */
export const poleVariance = Math.LN10 / (2 * Math.LN2);

/**
 * Time constants of the relaxation processes that stand for flicker FM: one a decade, from the shortest time
 * that the record resolves to ten times its length. The Allan variance then ripples by ±1.8 %.
 *
 * @param shortest - first time constant; time units, > 0
 * @param duration - length of the run; time units, > 0
 * @returns time constants, ascending; time units
 *
 * Source: Davis, Greenhall & Stacey, Metrologia 42, 1 (2005): flicker FM as a sum of Markov processes.
 */
export function ladder(shortest: number, duration: number): Float64Array {
  const times = [shortest];
  while (times.at(-1)! < 10 * duration) times.push(10 * times.at(-1)!);
  return Float64Array.from(times);
}

/**
 * Allan variance floors that lie in processes slower than the ladder, for a source observed 1e5 runs long:
 * what a steady rate differs by from the rate that the record can show.
 *
 *   ln(1e5·T/(2π·√10·τ_max))/(2·ln 2)
 *
 * @param times - time constants of the ladder; time units
 * @param duration - length of the run; time units
 * @returns variance of the rest; Allan variance floors
 *
 * Source: ∫ 2·h₋₁·df/f over what the ladder leaves out, with σ_y² = 2·ln 2·h₋₁ (IEEE Std 1139).
 */
export function slowerThanLadder(times: Float64Array, duration: number): number {
  return log((1e5 * duration) / (2 * Math.PI * Math.sqrt(10) * times.at(-1)!)) / (2 * Math.LN2);
}
