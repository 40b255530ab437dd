import { disturbanceToJson } from "./disturbance-section.ts";
import type { Scenario } from "./scenario.ts";
import { stagesToJson } from "./sections.ts";

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
  return {
    title: scenario.title,
    ...(scenario.seed !== null && { seed: scenario.seed }),
    length_s: scenario.length,
    ...(scenario.recording !== null && { recording: scenario.recording }),
    ...stagesToJson(scenario),
    disturbances: scenario.disturbances.map(disturbanceToJson),
  };
}
