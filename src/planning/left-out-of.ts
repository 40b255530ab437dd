import { buildSynthesizerLine } from "../chain/build-lines.ts";
import type { Scenario } from "../scenario/scenario.ts";

/** Noise processes that the simulation does without inside the loop. */
export interface LeftOutGroup {
  /** Which noise, e.g. "reference.frequency". */
  readonly path: string;
  /** How many relaxation processes of it. */
  readonly processes: number;
  /** Largest ratio of their spectrum at the output to the total, over all frequencies; dimensionless. */
  readonly ratio: number;
}

/**
 * What the simulation does without inside the loop, because its spectrum vanishes beside the rest.
 *
 * @param scenario - the scenario
 * @returns one entry a group of noise processes; none where everything is kept
 */
export function leftOutOf(scenario: Scenario): LeftOutGroup[] {
  if (scenario.synthesizer === null) return [];
  const { outputHz } = scenario.synthesizer;
  const { synthesizer } = buildSynthesizerLine(scenario, outputHz, "check", scenario.length);
  const groups = new Map<string, { ratio: number; processes: number }>();
  for (const { path, ratio } of synthesizer.leftOut) {
    const seen = groups.get(path) ?? { ratio: 0, processes: 0 };
    groups.set(path, { ratio: Math.max(ratio, seen.ratio), processes: seen.processes + 1 });
  }
  return [...groups].map(([path, group]) => ({ path, ...group }));
}
