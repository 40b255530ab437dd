import { median } from "../numeric/index.ts";
import type { Places } from "./even-places.ts";

/** Dead time that time stamps tell of, and what is to be said about it. */
export interface StampedDeadTime {
  /** s, >= 0; left out where the stamps do not tell it. */
  readonly deadTime?: number;
  readonly note: string;
}

/** Clocks that stamp readings are taken to hold this share of an interval; no deviation changes visibly by as much. */
const clockError = 1e-4;
/** Share of a reading above which the rounding of the stamps hides whether there is dead time. */
const coarse = 0.1;

/**
 * Dead time between readings from their time stamps: the spacing less the length of a reading.
 *
 * @param places - what the stamps lie on
 * @param length - usual length of a reading; s, > 0
 * @param said - dead time said beside the record; s, >= 0; undefined where nothing is said
 * @returns the dead time: what was said, else what is left, else 0 where nothing is left within what the stamps
 *   resolve; with a note of what was assumed, and of stamps that contradict what was said
 *
 * Source: own derivation; the error of stamping clocks is common practice, no published source. Exact case: stamps
 * 12 s apart leave 2 s beside readings of 10 s.
 */
export function stampedDeadTime(
  { spacing, bound: shift }: Places,
  length: number,
  said: number | undefined,
): StampedDeadTime {
  const left = spacing - length;
  const bound = Math.max(shift, clockError * length);
  const apart = `the time stamps are ${short(spacing)} apart`;
  if (said !== undefined) {
    const isOff = Math.abs(left - said) > Math.max(bound, 0.01 * length);
    const meant = said === 0 ? "back to back" : `with a dead time of ${short(said)}`;
    const note = isOff
      ? `${apart}, not the ${short(length + said)} that readings of ${short(length)} ${meant} are; they are taken as said`
      : "";
    return { deadTime: said, note };
  }
  if (!(bound < coarse * length)) {
    return { note: `${apart}, in steps too coarse to tell the dead time; give --dead-time` };
  }
  if (left < -bound) {
    return {
      note: `${apart}, less than the ${short(length)} of a reading, so that they do not tell the dead time`,
    };
  }
  if (left <= bound) {
    return {
      deadTime: 0,
      note: `the time stamps leave no dead time, to within ${short(bound)}, but do not prove that each reading begins at the last edge of the one before: the stability table takes them as back to back, the rates as readings with errors of their own; give --back-to-back if they share edges`,
    };
  }
  return {
    deadTime: left,
    note: `${apart} and a reading lasts ${short(length)}, so that the dead time is taken as ${short(left)}`,
  };
}

/**
 * Dead time between readings whose first edges are stamped: the usual break between the last edge of one and the
 * first of the next.
 *
 * @param start - first edge of each reading; K values, s, NaN = unknown
 * @param length - length of each; K values, s
 * @returns the median break; s; NaN where none is known
 */
export function usualBreak(start: Float64Array, length: Float64Array): number {
  return median(start.slice(1).map((t, i) => t - start[i]! - length[i]!));
}

const short = (seconds: number): string => `${Number(seconds.toPrecision(3))} s`;
