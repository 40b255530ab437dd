import type { Slips } from "../../theory/index.ts";
import type { DelayByPhase } from "./beat-noise.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** A burst in so many is nobody's concern. */
const negligible = 1e-15;

/**
 * Steps that the receiver misses, and steps that it makes too many.
 *
 * @param receiver - the receiver
 * @param arriving - bursts that arrive; 1/s
 * @param delay - how probable it is that a burst which arrives ends uncrossed, or begins above the threshold; null: neither
 * @param step - time from step to step; s, > 0
 */
export function stepSlips(
  { extraStepRateHz }: ReceiverParameters,
  arriving: number,
  delay: Pick<DelayByPhase, "missProbability" | "blockedProbability"> | null,
  step: number,
): readonly Slips[] {
  const lost = (probability = 0) => (probability < negligible ? 0 : probability) * arriving;
  const stage = "receiver";
  const [missed, blocked] = [lost(delay?.missProbability), lost(delay?.blockedProbability)];
  return [
    { stage, cause: "missed bursts", perSecond: missed, displacement: -step },
    { stage, cause: "blocked bursts", perSecond: blocked, displacement: -step },
    { stage, cause: "extra steps", perSecond: extraStepRateHz, displacement: step },
  ];
}
