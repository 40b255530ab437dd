import type { Scenario } from "../scenario/index.ts";
import {
  type ErrorLaw,
  errorCells,
  errorLaw,
  errorReach,
  errorWidth,
} from "../stages/counter/index.ts";
import {
  type DelayByPhase,
  type DelayLaw,
  delayLaw,
  type PhaseLaw,
} from "../stages/receiver/index.ts";
import { setFrequency } from "../stages/synthesizer/index.ts";

/**
 * The law of a scenario's detection delay, with the charge that bursts at its set rate leave behind.
 *
 * @param scenario - the scenario
 * @returns the law; null where the chain has no receiver
 * @throws RangeError as `DelayLaw`
 */
export function detectionDelay({ receiver, drive, synthesizer }: Scenario): DelayLaw | null {
  if (receiver === null || drive === null || synthesizer === null) return null;
  return delayLaw(
    receiver,
    drive,
    1 / setFrequency(synthesizer.outputHz, synthesizer.settingStepHz),
  );
}

/**
 * The same against the phase of the tone.
 *
 * @param scenario - the scenario
 * @returns mean in s and variance in s² at equally spaced phases; null where the chain has no receiver
 * @throws RangeError as `DelayLaw`
 */
export function delayByPhase(scenario: Scenario): DelayByPhase | null {
  const law = detectionDelay(scenario);
  if (law === null) return null;
  const { byPhase, missProbability, blockedProbability } = law;
  return { ...byPhase, missProbability, blockedProbability };
}

/**
 * The distribution of the detection delay about its mean: it follows the half cycles of the tone and is far from
 * Gaussian.
 *
 * @param scenario - the scenario
 * @returns the law in units of its own rms; null where there is no receiver, and where its noise does not spread the
 *   delay over the grid that it is known on
 */
export function delayErrors(scenario: Scenario): ErrorLaw | null {
  const law = detectionDelay(scenario);
  // Where every burst is blocked or missed no delay has a spread.
  if (law === null || law.plan.isFrozen || !(law.rmsDelay > 0)) return null;
  const { step } = law.plan;
  const { meanDelay: mean, rmsDelay: rms } = law;
  // Point i stands for the stretch from i − ½ to i + ½.
  const upTo = sumOver(law.phases);
  const last = upTo.length - 1;
  const below = (x: number) => {
    const place = Math.min(last, Math.max(0, (mean + x * rms) / step + 0.5));
    const whole = Math.min(last - 1, Math.floor(place));
    return upTo[whole]! + (place - whole) * (upTo[whole + 1]! - upTo[whole]!);
  };
  return errorLaw(
    Float64Array.from({ length: errorCells }, (_, cell) => {
      const low = -errorReach + cell * errorWidth;
      return below(low + errorWidth) - below(low);
    }),
  );
}

/** Probability of a delay below each point of the grid, over all phases. */
function sumOver(phases: readonly PhaseLaw[]): Float64Array {
  const upTo = new Float64Array(phases[0]!.shares.length + 1);
  for (const { shares } of phases) {
    shares.forEach((share, i) => {
      upTo[i + 1] = upTo[i + 1]! + share;
    });
  }
  for (let i = 1; i < upTo.length; i++) upTo[i] = upTo[i]! + upTo[i - 1]!;
  return upTo;
}
