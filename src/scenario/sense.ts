import type { Scenario } from "./scenario.ts";
import { senseOfCounter } from "./sense-counter.ts";
import { senseOfDisturbances } from "./sense-disturbances.ts";
import { senseOfDrive } from "./sense-drive.ts";
import { senseOfNoise } from "./sense-noise.ts";
import { senseOfOscillator } from "./sense-oscillator.ts";
import { type Sense, SenseReport } from "./sense-report.ts";
import { senseOfSynthesizer } from "./sense-synthesizer.ts";

/**
 * Checks a scenario for sense, not only for type: faults make it unusable, warnings do not.
 *
 * @param scenario - a resolved scenario
 * @param written - index in the file of each disturbance, where the file has them in another order
 * @returns what was found, the paths in the keys of scenario files
 */
export function senseOf(
  scenario: Scenario,
  written: readonly number[] = scenario.disturbances.map((_, index) => index),
): Sense {
  const report = new SenseReport();
  senseOfOscillator(scenario, report);
  senseOfNoise(scenario, report);
  senseOfSynthesizer(scenario, report);
  senseOfDrive(scenario, report);
  senseOfCounter(scenario, report);
  senseOfDisturbances(scenario, written, report);
  return report;
}
