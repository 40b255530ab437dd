import { exp } from "../numeric/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { DelayLaw } from "../stages/receiver/index.ts";

/** Bursts lost with a smaller probability than this are taken never to be lost. */
const negligible = 1e-12;
/** Gaussian deviates beyond this have a smaller probability still. */
const surely = 7.2;

/**
 * Tells whether a burst that arrives is sure to make a step: to be detected, and not blocked by the charge of
 * the burst before, which is at most the whole amplitude; and whether drops are sure not to wake the watchdog.
 * Then bursts nobody looks at need not be computed.
 *
 * @param scenario - a scenario with drive and receiver
 * @returns the test, for a factor on the amplitude and a burst period in s; its theory is computed once a factor
 */
export function surenessOf(
  scenario: Scenario,
): (amplitudeFactor: number, burstPeriod: number) => boolean {
  const drive = scenario.drive!;
  const receiver = scenario.receiver!;
  const known = new Map<number, boolean>();
  const isDetected = (factor: number): boolean => {
    let sure = known.get(factor);
    if (sure === undefined) {
      // What the bursts before have left only helps, but they may have been dropped.
      const faded = { ...drive, amplitudeV: drive.amplitudeV * factor };
      const law = () => new DelayLaw(receiver, faded, Number.POSITIVE_INFINITY);
      sure = factor > 0 && law().smallMissProbability < negligible;
      known.set(factor, sure);
    }
    return sure;
  };
  const isClear = (factor: number, burstPeriod: number): boolean => {
    if (!receiver.leak) return true;
    const highest = drive.amplitudeV * factor * (1 + surely * drive.amplitudeNoise);
    const left = highest * exp(-(burstPeriod - drive.burst) / receiver.timeConstant);
    return left + surely * receiver.noiseV < receiver.thresholdV;
  };
  const fallback = scenario.clock.fallback;
  return (amplitudeFactor, burstPeriod) => {
    if (!isDetected(amplitudeFactor) || !isClear(amplitudeFactor, burstPeriod)) return false;
    if (fallback === null) return true;
    // The watchdog wakes when every burst of a span of `after` is dropped.
    const bursts = Math.floor((fallback.after - drive.burst) / burstPeriod);
    let chance = 1;
    for (let i = 0; i < bursts && chance >= negligible; i++) chance *= drive.dropProbability;
    return bursts >= 1 && chance < negligible;
  };
}
