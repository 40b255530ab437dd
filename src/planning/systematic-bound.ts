import type { Scenario } from "../scenario/index.ts";
import type { SlipNoise } from "./slip-noise.ts";
import { timeBaseBound } from "./time-base-bound.ts";

/** What shifts an estimate from its truth, and why. */
export interface SystematicCause {
  readonly stage: string;
  /** In words, for tables. */
  readonly cause: string;
  /** Half-width of the bound, or size of the shift; dimensionless, > 0. */
  readonly bound: number;
}

/**
 * What shifts every rate read from its truth, whatever the length of the run.
 *
 * The time base does (`timeBaseBound`), and steps lost or gained at random: by so many steps a second.
 *
 * @param scenario - the scenario
 * @param slips - steps and edges lost and gained where the counter looks
 * @returns causes with their bounds, which add up; empty where nothing shifts it
 */
export function systematicCauses(scenario: Scenario, slips: SlipNoise): readonly SystematicCause[] {
  const { bound } = timeBaseBound(scenario);
  const base: SystematicCause =
    scenario.counter.timebase === "reference"
      ? { stage: "reference", cause: "its own offset", bound }
      : { stage: "time base", cause: "its uncertainty", bound };
  const lost: SystematicCause = {
    stage: slips.terms[0]?.stage ?? "clock",
    cause: slips.rate < 0 ? "steps lost" : "steps gained",
    bound: Math.abs(slips.rate),
  };
  return [base, lost].filter(({ bound }) => bound > 0);
}

/**
 * The sum of what shifts every rate read.
 *
 * @param causes - from `systematicCauses`
 * @returns half-width; dimensionless, >= 0
 */
export function systematicBound(causes: readonly SystematicCause[]): number {
  return causes.reduce((sum, { bound }) => sum + bound, 0);
}
