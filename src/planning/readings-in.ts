import type { GateTiming } from "../stages/counter/index.ts";

/**
 * The fewest readings that give a rate.
 *
 * @param timing - which edges are stamped
 * @returns 1, or 2 where a reading is a single stamp
 */
export function fewestReadings(timing: GateTiming): number {
  return timing.isStamped ? 2 : 1;
}

/**
 * Length of a run that gives K readings.
 *
 * @param timing - which edges are stamped
 * @param readings - K; integer >= 1
 * @returns s
 */
export function lengthOf(timing: GateTiming, readings: number): number {
  const last = timing.isStamped ? 0 : timing.gate;
  return timing.wait + (readings - 1) * timing.spacing + last;
}

/**
 * Readings that a run gives; the inverse of `lengthOf`.
 *
 * @param timing - which edges are stamped
 * @param length - of the run; s, >= 0
 * @returns integer >= 0
 */
export function readingsIn(timing: GateTiming, length: number): number {
  const beyondFirst = (length - lengthOf(timing, 1)) / timing.spacing;
  return Math.max(0, Math.floor(beyondFirst * (1 + 1e-14) + 1e-9) + 1);
}
