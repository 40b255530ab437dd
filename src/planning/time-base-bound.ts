import type { Scenario } from "../scenario/index.ts";
import { explainedRate } from "../stages/oscillator/index.ts";

/**
 * How far the counter's time base may shift every rate read, and why: what no averaging removes.
 *
 * A time base of the counter's own is known to its stated uncertainty; where the counter runs on the reference,
 * the reference's own offset, its mean over the run by ageing and temperature included, cannot be seen at all.
 *
 * @param scenario - the scenario
 * @returns half-width of the bound, dimensionless, and its cause in words
 */
export function timeBaseBound(scenario: Scenario): {
  readonly bound: number;
  readonly cause: string;
} {
  const { timebase } = scenario.counter;
  return timebase === "reference"
    ? {
        bound: Math.max(Math.abs(explainedRate(scenario)), scenario.reference.uncertainty ?? 0),
        cause: "the counter runs on the reference, whose own offset it cannot see",
      }
    : { bound: timebase.uncertainty, cause: "the counter's time base is known no better" };
}
