import type { RateEstimate } from "../analysis/rate/rate-estimate.ts";
import type { RunOutcome } from "./simulate.ts";

/** Share of a run on the clock's own oscillator from which on its rate is not that of the drive. */
const mostWithoutDrive = 0.1;

/**
 * How much of a run the clock went on its own oscillator, where that is too much for the estimates.
 *
 * @returns the share, 0 to 1; null where it is small enough for those readings to be set apart as outliers
 */
export function shareWithoutDrive(outcome: Pick<RunOutcome, "fallback" | "length">): number | null {
  const spans = outcome.fallback.reduce((sum, [from, to]) => sum + (to - from), 0);
  const share = spans / outcome.length;
  return share > mostWithoutDrive ? share : null;
}

/** Why an estimate does not tell the rate of the drive. */
export const withoutDriveWhy = (share: number): string =>
  `the clock ran on its own oscillator for ${Math.round(100 * share)} % of the run, so that its readings do not tell the rate of the drive, which the truth is about`;

/** An estimate that does not apply, since the clock was hardly driven. */
export function undriven(estimate: RateEstimate, share: number): RateEstimate {
  return { ...estimate, applies: false, why: withoutDriveWhy(share) };
}
