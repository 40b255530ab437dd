import { resolveClock } from "./clock-section.ts";
import { resolveCounter } from "./counter-section.ts";
import { deepFreeze } from "./deep-freeze.ts";
import { resolveDisturbance } from "./disturbance-section.ts";
import { resolveDrive } from "./drive-section.ts";
import { resolveEnvironment, resolveReference } from "./oscillator-section.ts";
import { resolveReceiver } from "./receiver-section.ts";
import type { Scenario } from "./scenario.ts";
import type { ScenarioDocument } from "./schema.ts";
import { resolveSynthesizer } from "./synthesizer-section.ts";

/**
 * Fills in what a scenario leaves open and brings it into the form the rest of the program uses.
 *
 * Defaults that depend on other keys: a noise band ends at half the edge rate of its stage (own time
 * base of a counter: 5 MHz, as of a 10 MHz one); a time base is known within its own offset; a
 * time-interval counter starts every second. Disturbances come out in order of time.
 *
 * @param document - a scenario without structural faults (`structureFaults`)
 * @returns the scenario in SI units, frozen through and through
 */
export function resolveScenario(document: ScenarioDocument): Scenario {
  const { seed, environment, synthesizer, drive, receiver } = document;
  return deepFreeze({
    title: document.title,
    seed: seed === undefined ? null : String(seed),
    length: document.length_s,
    recording: document.recording ?? null,
    environment: resolveEnvironment(environment),
    reference: resolveReference(document.reference),
    synthesizer: synthesizer === undefined ? null : resolveSynthesizer(synthesizer),
    drive: drive === undefined ? null : resolveDrive(drive),
    receiver: receiver === undefined ? null : resolveReceiver(receiver),
    clock: resolveClock(document.clock, receiver),
    counter: resolveCounter(document.counter),
    disturbances: document.disturbances.map(resolveDisturbance).sort((a, b) => a.at - b.at),
  });
}
