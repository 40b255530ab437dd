import { buildSynthesizerLine } from "../chain/index.ts";
import { exp } from "../numeric/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { timeToForget } from "../stages/receiver/index.ts";

/** Something that the simulation does without, since it vanishes beside the rest. */
export interface LeftOutGroup {
  /** Which noise of the loop, e.g. "reference.frequency", or "receiver.charge". */
  readonly path: string;
  /** How many relaxation processes of it; 1 for the charge. */
  readonly processes: number;
  /** Largest ratio of their spectrum at the output to the total, over all frequencies; dimensionless. */
  readonly ratio: number;
}

/**
 * What the simulation does without, because its spectrum vanishes beside the rest: noise inside the loop,
 * and, where not every burst is computed, what is left of the charge of the burst before.
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
  const found = [...groups].map(([path, group]) => ({ path, ...group }));
  const ratio = chargeLeftOut(scenario);
  return ratio === null ? found : [...found, { path: "receiver.charge", processes: 1, ratio }];
}

/** Power of the charge left by the burst before beside that of the receiver's noise; null where it is followed. */
function chargeLeftOut({ receiver, drive, synthesizer }: Scenario): number | null {
  if (receiver === null || drive === null || synthesizer === null) return null;
  const silence = 1 / synthesizer.outputHz - drive.burst;
  if (!receiver.leak || timeToForget(receiver, drive.amplitudeV) > silence) return null;
  const left = drive.amplitudeV * exp(-silence / receiver.timeConstant);
  const beside = receiver.noiseV > 0 ? receiver.noiseV : receiver.thresholdV;
  return (left / beside) * (left / beside);
}
