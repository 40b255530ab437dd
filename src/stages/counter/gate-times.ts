import type { CounterParameters } from "./counter-parameters.ts";

/** What of a counter decides when its readings begin and end. */
export type GateSetting = Pick<CounterParameters, "technique" | "gate" | "deadTime">;

/** A gate and a dead time in numbers. */
export interface GateTimes {
  /** From the start of a reading to the moment from which it may end; s, >= 0. */
  readonly gate: number;
  /** What a reading lasts at least; s, > 0. */
  readonly shortest: number;
  /** From the end of a reading to the moment from which the next may begin; s, 0 back to back. */
  readonly deadTime: number;
}

/**
 * What a gate and a dead time mean.
 *
 * A `single` gate is one period: a reciprocal counter ends the reading with the very next edge, a direct one opens
 * its gate for a period. A time-interval counter then starts every second, and knows no dead time.
 *
 * @param setting - technique, gate and dead time
 * @param period - of the edges; s, > 0
 */
export function gateTimes({ technique, gate, deadTime }: GateSetting, period: number): GateTimes {
  if (technique === "time_interval") {
    const spacing = gate === "single" ? 1 : gate;
    return { gate: spacing, shortest: spacing, deadTime: 0 };
  }
  const shortest = gate === "single" ? period : gate;
  const opens = gate === "single" && technique === "reciprocal" ? 0 : shortest;
  return { gate: opens, shortest, deadTime };
}
