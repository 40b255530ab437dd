import type { Simulator } from "../kernel/index.ts";
import { exponential, Instant, type RandomStream } from "../numeric/index.ts";
import { priority } from "./priority.ts";

/** Whom extra steps befall. */
export interface Stepped {
  /** A little before a step: look closely from now on. */
  approach(): void;
  /** The step. */
  displace(steps: 1, at: Instant): void;
  /** It has passed. */
  recede(): void;
}

/**
 * Schedules steps that no burst makes: a Poisson process.
 *
 * @param clock - takes them
 * @param rateHz - their rate; Hz, 0 for none
 * @param lead - how long before each the clock is told that one comes; s
 * @param stream - its deviates
 * @param simulator - keeps their time
 */
export function scheduleExtraSteps(
  clock: Stepped,
  rateHz: number,
  lead: number,
  stream: RandomStream,
  simulator: Simulator,
): void {
  if (rateHz === 0) return;
  const at = new Instant();
  const scheduleNext = () => {
    at.add(exponential(stream) / rateHz);
    const before = new Instant().copy(at).add(-lead);
    if (before.isBefore(simulator.now)) before.copy(simulator.now);
    simulator.schedule(before, priority.approach, () => clock.approach());
    simulator.schedule(at, priority.extraStep, () => {
      clock.displace(1, simulator.now);
      clock.recede();
      scheduleNext();
    });
  };
  scheduleNext();
}
