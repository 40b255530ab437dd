import type { Judgement, RateEstimate } from "../judgement/index.ts";
import { notOfOneRate } from "../judgement/index.ts";
import type { RunOutcome } from "./simulate.ts";

/** Share of a run on the clock's own oscillator from which on its rate is not that of the drive. */
const mostWithoutDrive = 0.1;

/**
 * How much of a run the clock went on its own oscillator, where that is too much for the estimates.
 *
 * @returns the share, 0 to 1; null where it is small enough for those readings to be set apart as outliers
 */
export function shareWithoutDrive(
  outcome: Pick<RunOutcome, "fallbackTime" | "length">,
): number | null {
  const share = outcome.fallbackTime / outcome.length;
  return share > mostWithoutDrive ? share : null;
}

/** Why an estimate does not tell the rate of the drive. */
export const withoutDriveWhy = (share: number): string =>
  `the clock ran on its own oscillator for ${Math.round(100 * share)} % of the run, so that its readings do not tell the rate of the drive, which the truth is about`;

/**
 * What is left of a judgement where the flags in the file say that the clock was hardly driven.
 *
 * @param share - of the readings that are flagged as taken on the clock's own oscillator
 */
export function judgedWithoutDrive(judgement: Judgement, share: number): Judgement {
  if (!(share > mostWithoutDrive)) return judgement;
  const why = `by its flags the clock ran on its own oscillator in ${Math.round(100 * share)} % of the readings, so that they do not tell the rate of the drive`;
  const apart = judgement.estimatesWithStrays;
  return {
    ...judgement,
    estimates: notOfOneRate(judgement.estimates, why),
    estimatesWithStrays: apart && notOfOneRate(apart, why),
    longer: judgement.longer && [],
    ahead: judgement.ahead && [],
  };
}

/** An estimate that does not apply, since the clock was hardly driven. */
export function undriven(estimate: RateEstimate, share: number): RateEstimate {
  return { ...estimate, applies: false, why: withoutDriveWhy(share) };
}

/** The same for a table, in which a rate would be taken for one: it has none, and no interval. */
export function withoutRate(estimate: RateEstimate, share: number): RateEstimate {
  return {
    ...undriven(estimate, share),
    rate: Number.NaN,
    secondsPerDay: Number.NaN,
    standardUncertainty: Number.NaN,
    interval95: [Number.NaN, Number.NaN],
    steadyStandardUncertainty: null,
    steadyInterval95: null,
  };
}
