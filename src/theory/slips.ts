import type { NoiseTerm } from "./noise-term.ts";

/** Whole steps or edges that come to be lost or gained at random, one cause. */
export interface Slips {
  /** Where in the chain, as tables name it. */
  readonly stage: string;
  /** In words, for tables. */
  readonly cause: string;
  /** How often; 1/s, >= 0. */
  readonly perSecond: number;
  /** What each does to the time error; s, positive where the clock gains. */
  readonly displacement: number;
}

/**
 * What slips do to the rate on the average.
 *
 * @param slips - of one cause
 * @returns dimensionless, positive = fast
 */
export function slipRate({ perSecond, displacement }: Slips): number {
  return perSecond * displacement;
}

/**
 * The scatter of the number of slips, which accumulates as white FM does: h₀ = 2·n·d².
 *
 * @param slips - n a second of one cause, each of which displaces the time error by d
 *
 * Source: Campbell's theorem for a Poisson process.
 */
export function slipTerm({ stage, cause, perSecond, displacement }: Slips): NoiseTerm {
  const h0 = 2 * perSecond * displacement * displacement;
  return { stage, cause, shape: { type: "white_fm", h0 } };
}
