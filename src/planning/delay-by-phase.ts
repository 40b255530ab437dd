import { RandomStream } from "../numeric/index.ts";
import type { Scenario } from "../scenario/index.ts";
import type { DriveParameters } from "../stages/drive/index.ts";
import type { ReceiverParameters } from "../stages/receiver/index.ts";
import {
  BurstDetector,
  type DelayByPhase,
  type DetectionTheory,
  detectionTheory,
} from "../stages/receiver/index.ts";

/** Phases looked at where the delay jumps: its harmonics fall off as 1/h only. */
const quietPhases = 1024;

/**
 * The detection delay of a scenario's receiver against the phase of the tone, by theory.
 *
 * Without any noise the delay jumps at certain phases, by up to half a cycle of the tone, and more phases are
 * looked at.
 *
 * @param scenario - the scenario
 * @param theory - of its receiver, where it is at hand
 * @returns mean in s and variance in s² at equally spaced phases; null where the chain has no receiver
 * @throws RangeError as `detectionTheory`
 */
export function delayByPhase(
  scenario: Scenario,
  theory: DetectionTheory | null = null,
): DelayByPhase | null {
  const { receiver, drive } = scenario;
  if (receiver === null || drive === null) return null;
  if (receiver.noiseV === 0 && drive.amplitudeNoise === 0) {
    const mean = quietDelays(receiver, drive);
    if (mean.every(Number.isFinite)) {
      return { mean, variance: new Float64Array(mean.length), missProbability: 0 };
    }
  }
  const { meanAt, varianceAt, missProbability } = theory ?? detectionTheory(receiver, drive);
  return { mean: meanAt, variance: varianceAt, missProbability };
}

/** Delays of a detector without noise; nothing is drawn from its stream. */
function quietDelays(receiver: ReceiverParameters, drive: DriveParameters): Float64Array {
  const detector = new BurstDetector(receiver, drive, new RandomStream("quiet", "receiver"));
  return Float64Array.from({ length: quietPhases }, (_, i) => {
    detector.begin();
    return detector.detect(i / quietPhases, drive.amplitudeV);
  });
}
