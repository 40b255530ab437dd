import type { BestFit, HeldRate } from "./best-fit.ts";
import { howMuchLonger } from "./how-much-longer.ts";
import type { Judgement } from "./judge-readings.ts";

/** What is known of the time bases under the records. */
export interface CompareOptions {
  /** Whether one and the same time base was under all, so that what it is off by cancels. */
  readonly sameTimebase?: boolean;
  /** How far that one may have moved from one record to another; dimensionless, >= 0. */
  readonly timebaseMoves?: number;
}

/** How two records differ; the first minus the second. */
export interface Difference {
  readonly between: readonly [first: number, second: number];
  readonly overRun: HeldRate;
  readonly steady: HeldRate;
  /** Half-width of what shifts the difference and no averaging removes; dimensionless. */
  readonly systematicBound: number;
  /** Whether they differ: the steady interval, widened by the bound, leaves 0 out. */
  readonly differs: boolean;
  /** What would narrow the steady interval to half: time more of either record alone; s, Infinity where it would not. */
  readonly toHalve: readonly [first: number, second: number];
}

/** Records of which each has a rate, and their differences. */
export interface Comparison {
  readonly differences: readonly Difference[];
}

/**
 * Differences of the rates of records, for every pair, with intervals that hold for all pairs together.
 *
 * Each of m pairs has the level 1 − 0.05/m. Of two independent rates a and b with limits at that level the difference
 * lies, by the method of variance estimates recovery,
 *
 *   from (a − b) − √((a − a_low)² + (b_high − b)²) to (a − b) + √((a_high − a)² + (b − b_low)²)
 *
 * Whether two differ is judged on the steady rates: one wandering clock, looked at twice, does not differ from itself.
 * Bounds of the records add; under one time base only that cancels, and how far it may have moved counts instead.
 *
 * @param judgements - of at least two records, each with a headline
 * @param options - what is known of the time bases
 * @returns the differences
 * @throws RangeError for fewer than two records, or one without a headline
 *
 * Source: Bonferroni; Zou & Donner, Statistics in Medicine 27, 1693 (2008) (MOVER). Exact case: equal half-widths h give
 * √2·h.
 */
export function compareRecords(
  judgements: readonly Judgement[],
  { sameTimebase = false, timebaseMoves = 0 }: CompareOptions = {},
): Comparison {
  if (judgements.length < 2) {
    throw new RangeError(`compareRecords: records must be 2 or more, got ${judgements.length}`);
  }
  const pairs = judgements.flatMap((_, i) =>
    judgements.slice(i + 1).map((_, k): [number, number] => [i, i + 1 + k]),
  );
  const share = 1 - 0.05 / pairs.length;
  const records = judgements.map(({ fit, headline }, i) => {
    if (fit === null || headline === null) {
      throw new RangeError(`compareRecords: record ${i} must have a headline, got none`);
    }
    // What is shared leaves the faults that each record has by itself, such as the race of its gate.
    const own = fit.systematic.reduce((sum, { bound }) => sum + bound, 0);
    return {
      fit,
      bound: sameTimebase ? own : headline.systematicBound,
      overRun: heldAt(fit, "overRun", share),
      steady: heldAt(fit, "steady", share),
    };
  });
  return {
    differences: pairs.map(([i, j]): Difference => {
      const [a, b] = [records[i]!, records[j]!];
      const systematicBound = a.bound + b.bound + (sameTimebase ? timebaseMoves : 0);
      const steady = lessOf(a.steady, b.steady);
      const [low, high] = steady.interval95;
      return {
        between: [i, j],
        overRun: lessOf(a.overRun, b.overRun),
        steady,
        systematicBound,
        differs: low - systematicBound > 0 || high + systematicBound < 0,
        toHalve: [toHalve(a, b), toHalve(b, a)],
      };
    }),
  };
}

/** A rate with the interval of another level: as much wider as the model's own is. */
function heldAt(fit: BestFit, of: "overRun" | "steady", share: number): HeldRate {
  const { posterior } = fit;
  const { rate, interval95 } = fit[of];
  if (posterior === null || share === 0.95) return { rate, interval95 };
  const [wide, usual] = [posterior[of](share), posterior[of]()];
  const factor = (wide.high - wide.low) / (usual.high - usual.low);
  return {
    rate,
    interval95: interval95.map((end) => rate + factor * (end - rate)) as [number, number],
  };
}

function lessOf(a: HeldRate, b: HeldRate): HeldRate {
  const rate = a.rate - b.rate;
  const [aLow, aHigh] = a.interval95;
  const [bLow, bHigh] = b.interval95;
  const below = Math.sqrt((a.rate - aLow) ** 2 + (bHigh - b.rate) ** 2);
  const above = Math.sqrt((aHigh - a.rate) ** 2 + (b.rate - bLow) ** 2);
  return { rate, interval95: [rate - below, rate + above] };
}

const halfOf = ({ interval95: [low, high] }: HeldRate) => (high - low) / 2;

/** Time more of one record alone that would halve the steady interval of its difference from the other. */
function toHalve(one: { fit: BestFit; steady: HeldRate }, other: { steady: HeldRate }): number {
  const [own, rest] = [halfOf(one.steady), halfOf(other.steady)];
  const square = (own * own + rest * rest) / 4 - rest * rest;
  if (!(square > 0)) return Number.POSITIVE_INFINITY;
  // At 95 % the record has to become narrower in the same proportion.
  const within = (halfOf(one.fit.steady) * Math.sqrt(square)) / own;
  const { reachable, further } = howMuchLonger(one.fit, within, 0, "long");
  return reachable ? further : Number.POSITIVE_INFINITY;
}
