import { detectionTheory } from "../receiver/detection-theory.ts";
import type { Scenario } from "../scenario/scenario.ts";
import type { DelayByPhase } from "./beat-noise.ts";

/**
 * The detection delay of a scenario's receiver against the phase of the tone, by theory.
 *
 * @param scenario - the scenario
 * @returns mean in s and variance in s² at equally spaced phases; null where the chain has no receiver
 * @throws RangeError as `detectionTheory`
 */
export function delayByPhase(scenario: Scenario): DelayByPhase | null {
  const { receiver, drive } = scenario;
  if (receiver === null || drive === null) return null;
  const { meanAt, varianceAt } = detectionTheory(receiver, drive);
  return { mean: meanAt, variance: varianceAt };
}
