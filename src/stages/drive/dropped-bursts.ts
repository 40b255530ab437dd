import type { Slips } from "../../theory/index.ts";
import type { DriveParameters } from "./drive-parameters.ts";

/**
 * Bursts that do not arrive: each costs the clock a step.
 *
 * @param drive - the drive
 * @param step - time from step to step; s, > 0
 */
export function droppedBursts({ dropProbability }: DriveParameters, step: number): Slips {
  return {
    stage: "drive",
    cause: "dropped bursts",
    perSecond: dropProbability / step,
    displacement: -step,
  };
}
