import { asWritten } from "../keys/index.ts";
import { driveKeys } from "../stages/drive/index.ts";
import type { Scenario } from "./scenario.ts";
import { scenarioSchema } from "./schema.ts";

/**
 * The way back: a resolved scenario as what could stand in a file, every default written out.
 *
 * Noise comes out as levels h_α, white PM as rms time error, so that no number is converted twice.
 *
 * @param scenario - a resolved scenario
 * @returns a plain object in the keys of scenario files; parsed again it gives the same scenario, bit
 * for bit
 */
export function resolvedToJson(scenario: Scenario): Record<string, unknown> {
  const { drive, receiver, clock } = scenario;
  return asWritten(scenarioSchema, {
    ...scenario,
    drive: drive && driveKeys.asKeys(drive),
    receiver: receiver && { ...receiver, ...clock },
  });
}
