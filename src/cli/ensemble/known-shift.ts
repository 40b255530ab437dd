import type { Scenario } from "../../scenario/index.ts";

/**
 * By how much the time base makes its counter read wrong, which the simulation knows though no user does.
 *
 * @returns fractional offset of the time base; 0 where it is the reference, to which the truth then refers
 */
export function knownShift({ counter }: Scenario): number {
  return counter.timebase === "reference" ? 0 : counter.timebase.fractionalOffset;
}
