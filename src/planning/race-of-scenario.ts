import type { Scenario } from "../scenario/index.ts";
import { delayByPhase } from "./detection-delay.ts";
import type { GateRace } from "./gate-race.ts";
import { measurements } from "./measurement.ts";

/**
 * What the scenario's own gate does.
 *
 * @param scenario - the scenario
 * @returns the race; null where there is none
 */
export function raceOfScenario(scenario: Scenario): GateRace | null {
  const { technique, gate, deadTime, input } = scenario.counter;
  if (technique !== "reciprocal" || deadTime === 0) return null;
  const source = measurements(scenario, input, delayByPhase(scenario));
  return source.measure({ technique, gate, deadTime }).race;
}
