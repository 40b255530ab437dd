import { type DelayByPhase, delayByPhase } from "../receiver/delay-by-phase.ts";
import type { Scenario } from "../scenario/scenario.ts";

/** Laws computed so far: the runs of an ensemble share theirs. */
const known = new WeakMap<Scenario, DelayByPhase | null>();

/**
 * The law of the delays of a scenario's bursts, computed once.
 *
 * @param scenario - a scenario with drive and receiver
 * @returns the law, null where it is not known (`delayByPhase`)
 */
export function delaysOf(scenario: Scenario): DelayByPhase | null {
  let law = known.get(scenario);
  if (law === undefined) {
    const drive = scenario.drive!;
    law = delayByPhase(scenario.receiver!, drive, drive.carrierLock === "locked");
    known.set(scenario, law);
  }
  return law;
}
