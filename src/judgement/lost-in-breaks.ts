import { usualWander } from "./usual-wander.ts";

/** The breaks of a record, by the counter's time, and its readings; numbers of readings count those that are there. */
export interface Breaks {
  /** The reading after each break; ascending, >= 1. */
  readonly after: ArrayLike<number>;
  /** Whole cycles in each break. */
  readonly whole: ArrayLike<number>;
  /** What each holds beside them, > 0 where lost; cycles. */
  readonly off: ArrayLike<number>;
  /** How far noise carries that, by the readings' scatter and the uncertainty of their mean; cycles. */
  readonly expected: ArrayLike<number>;
  /** Cycles of each reading, and what it lasts longer than they do at the mean rate; cycles. */
  readonly cycles: Float64Array;
  readonly residual: Float64Array;
  readonly backToBack: boolean;
}

/** Deviations beyond which noise explains no part of a cycle. */
const beyond = 5;

/**
 * The largest part of a cycle that a record lost or gained in one of its breaks, beyond what noise explains. Such a
 * part (the dial was touched, the clock stopped and went on, a reading set apart is wrong) is no rate.
 *
 * A step shows between any edge before the break and any after it, while a late edge spoils only what it belongs to:
 * so the least is taken of what the break holds alone and together with the reading on either side. A rate that
 * wanders carries a long break further than jitter does: the rest of the record tells how far.
 *
 * @param breaks - of one record
 * @returns the part, > 0; cycles; 0 where noise explains all of them
 *
 * Source: own derivation; the five deviations are common practice. Exact case: readings of one and the same period
 * with 0.2 of a cycle between two of them have lost 0.2.
 */
export function lostInBreaks(breaks: Breaks): number {
  const { after, whole, off, expected, residual } = breaks;
  const wander = usualWander(breaks);
  let most = 0;
  for (let k = 0; k < after.length; k++) {
    const size = leastOf(residual[after[k]! - 1]!, off[k]!, residual[after[k]!]!);
    if (size > most && size > beyond * expected[k]! && size > beyond * wander(whole[k]!))
      most = size;
  }
  return most;
}

/** Size of a break's step by the edges next to it or those a reading further off, whichever is least. */
function leastOf(before: number, off: number, next: number): number {
  const alone = Math.abs(off);
  const withBefore = Math.abs(before + off);
  const withNext = Math.abs(off + next);
  return Math.min(alone, withBefore, withNext, Math.abs(before + off + next));
}
