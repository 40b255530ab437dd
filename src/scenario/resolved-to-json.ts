import { clockToJson } from "./clock-section.ts";
import { counterToJson } from "./counter-section.ts";
import { disturbanceToJson } from "./disturbance-section.ts";
import { driveToJson } from "./drive-section.ts";
import { environmentToJson, referenceToJson } from "./oscillator-section.ts";
import { receiverToJson } from "./receiver-section.ts";
import type { Scenario } from "./scenario.ts";
import { synthesizerToJson } from "./synthesizer-section.ts";

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
  const { environment, clock, synthesizer, drive, receiver } = scenario;
  return {
    title: scenario.title,
    ...(scenario.seed !== null && { seed: scenario.seed }),
    length_s: scenario.length,
    ...(scenario.recording !== null && { recording: scenario.recording }),
    clock: clockToJson(clock),
    environment: environmentToJson(environment),
    reference: referenceToJson(scenario.reference),
    ...(synthesizer && { synthesizer: synthesizerToJson(synthesizer) }),
    ...(drive && { drive: driveToJson(drive) }),
    ...(receiver && { receiver: receiverToJson(receiver, clock) }),
    counter: counterToJson(scenario.counter),
    disturbances: scenario.disturbances.map(disturbanceToJson),
  };
}
