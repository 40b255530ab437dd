import type { Slips } from "../../theory/index.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** A burst in so many is nobody's concern. */
const negligible = 1e-15;

/**
 * Steps that the receiver misses, and steps that it makes too many.
 *
 * @param receiver - the receiver
 * @param arriving - bursts that arrive; 1/s
 * @param missProbability - that a burst which arrives makes no step
 * @param step - time from step to step; s, > 0
 */
export function stepSlips(
  { extraStepRateHz }: ReceiverParameters,
  arriving: number,
  missProbability: number,
  step: number,
): readonly Slips[] {
  const missed = missProbability < negligible ? 0 : missProbability;
  const stage = "receiver";
  return [
    { stage, cause: "missed bursts", perSecond: missed * arriving, displacement: -step },
    { stage, cause: "extra steps", perSecond: extraStepRateHz, displacement: step },
  ];
}
