import { inTerms, type SenseReport } from "../keys/index.ts";
import { deepFreeze } from "./deep-freeze.ts";
import { resolveLog } from "./log-section.ts";
import type { Scenario } from "./scenario.ts";
import type { ScenarioDocument } from "./schema.ts";
import { resolveStages } from "./sections.ts";

/**
 * Fills in what a scenario leaves open and brings it into the form the rest of the program uses.
 *
 * Defaults that depend on other keys: a noise band ends at half the edge rate of its stage (own time
 * base of a counter: 5 MHz, as of a 10 MHz one); a time base is known within its own offset; a
 * time-interval counter starts every second. Disturbances come out in order of time.
 *
 * @param document - the scenario as written
 * @param report - where it is noted that keys do not fix something
 * @returns the scenario in SI units, frozen through and through
 */
export function resolveScenario(document: ScenarioDocument, report: SenseReport): Scenario {
  const { seed, disturbances } = document;
  const stages = resolveStages(document, report);
  return deepFreeze({
    title: document.title,
    seed: seed === undefined ? null : String(seed),
    length: document.length_s,
    recording: document.recording ?? null,
    ...stages,
    log: resolveLog(document.log, stages.counter),
    disturbances: inTerms(disturbances).toSorted((a, b) => a.at - b.at),
  });
}
