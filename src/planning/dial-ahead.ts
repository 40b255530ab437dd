import type { NoiseLevels } from "../noise/index.ts";
import { rateLadder } from "../noise/index.ts";
import { normalQuantile } from "../numeric/index.ts";
import { integratedLoss } from "./integrated-loss.ts";

/** What is known of a clock's rate, and for how long it is to be foretold. */
export interface DialQuestion {
  /** Rate found or foreseen; dimensionless, positive = fast. */
  readonly rate: number;
  /** Standard uncertainty of the rate about that over the run, random effects alone; dimensionless. */
  readonly standardUncertainty: number;
  /** Bound of what may shift it; dimensionless, >= 0. */
  readonly systematicBound: number;
  /** Length of the run the rate is from; s, > 0. */
  readonly runLength: number;
  /** How far ahead, from the end of the run; s, > 0. */
  readonly ahead: number;
  /** Noise of the oscillator that keeps the clock; its frequency noise accumulates. */
  readonly levels: NoiseLevels;
  /** Confidence of the interval; 0 < p < 1. */
  readonly confidence: number;
}

/** What the dial will be off by, against what it shows at the end of the run. */
export interface DialAhead {
  /** Expected; s, positive = fast. */
  readonly error: number;
  /** Standard uncertainty of the error; s. */
  readonly standardUncertainty: number;
  /** Systematic bound; s. */
  readonly systematicBound: number;
  /** Interval at the confidence asked for, bound included; s. */
  readonly interval: readonly [number, number];
}

/**
 * What a clock's dial will be off by some time after a run that found its rate.
 *
 *   error = rate·A,  u² = A²·(u_rate² + Var(ȳ over the time ahead − ȳ over the run))
 *
 * White FM gives (h₀/2)(1/A + 1/L), a random walk 2π²h₋₂·(A + L)/3, flicker FM the sum over its relaxation
 * processes; all of the means of two stretches of time that adjoin.
 *
 * @param question - rate, uncertainty, and the oscillator's noise
 * @returns expected error and its interval; s
 * @throws RangeError if a length or the confidence is outside its range
 *
 * Source: own derivation; IEEE Std 1139 for the levels. Exact case: A = L gives twice the Allan variance.
 */
export function dialAhead(question: DialQuestion): DialAhead {
  const { rate, systematicBound, runLength, ahead, levels, confidence } = question;
  if (!(runLength > 0))
    throw new RangeError(`dialAhead: runLength must be > 0 s, got ${runLength}`);
  if (!(ahead > 0)) throw new RangeError(`dialAhead: ahead must be > 0 s, got ${ahead}`);
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(`dialAhead: confidence must be > 0 and < 1, got ${confidence}`);
  }
  const variance = question.standardUncertainty ** 2 + adjoiningVariance(levels, runLength, ahead);
  const error = rate * ahead;
  const standardUncertainty = ahead * Math.sqrt(variance);
  const bound = ahead * systematicBound;
  const half = normalQuantile(0.5 + confidence / 2) * standardUncertainty + bound;
  return {
    error,
    standardUncertainty,
    systematicBound: bound,
    interval: [error - half, error + half],
  };
}

/** Variance of the difference of the mean rates over two adjoining stretches of time. */
function adjoiningVariance(levels: NoiseLevels, before: number, after: number): number {
  let variance =
    (levels.h0 / 2) * (1 / before + 1 / after) +
    (2 * Math.PI * Math.PI * levels.hMinus2 * (before + after)) / 3;
  if (levels.hMinus1 > 0) {
    const ladder = rateLadder({ ...levels, h0: 0, hMinus2: 0 }, Math.min(before, after));
    variance += (ladder.whiteLevel / 2) * (1 / before + 1 / after);
    for (let k = 0; k < ladder.timeConstants.length; k++) {
      const time = ladder.timeConstants[k]!;
      variance +=
        ((ladder.diffusions[k]! * time) / 2) * relaxingDifference(before / time, after / time);
    }
  }
  return variance;
}

/** The same for one relaxation process of unit variance, lengths in units of its time constant. */
function relaxingDifference(a: number, b: number): number {
  const own = (u: number) => (2 * integratedLoss(u)) / (u * u);
  const between = (Math.expm1(-a) * Math.expm1(-b)) / (a * b);
  return own(a) + own(b) - 2 * between;
}
