import type { Scenario } from "../scenario/scenario.ts";

/** What shifts an estimate from its truth by an unknown but bounded part, and why. */
export interface SystematicBound {
  /** Half-width; dimensionless, >= 0. */
  readonly bound: number;
  /** In words: who sets the bound. */
  readonly cause: string;
}

/**
 * How far every rate read may be off because the counter's time base is.
 *
 * With a time base of its own this is the uncertainty stated for it. Where the counter runs on the reference,
 * the reference's own offset cannot be seen at all, and is the bound.
 *
 * @param scenario - the scenario
 * @returns the bound with its cause; no averaging makes it smaller
 */
export function systematicBound(scenario: Scenario): SystematicBound {
  const { timebase } = scenario.counter;
  return timebase === "reference"
    ? {
        bound: Math.abs(scenario.reference.fractionalOffset),
        cause: "the counter runs on the reference, whose own rate it cannot see",
      }
    : { bound: timebase.uncertainty, cause: "the counter's time base" };
}
