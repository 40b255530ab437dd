import type { Readings } from "../readings/index.ts";
import type { RateEstimate } from "./rate-estimate.ts";

/** Share of the readings set apart above which what is left is no record of one rate. */
const mostApart = 0.2;

/**
 * Why a record tells no one rate: too many of its readings were set apart.
 *
 * A clock that goes half the time by another oscillator has two rates. Which of them is meant the readings do not
 * know, and those that scatter least are no better for it.
 *
 * @param given - the record as it came
 * @param without - the same without strays and spans at another rate
 * @returns the reason; empty where no more than a fifth was set apart
 *
 * Source: own choice, no published source. Exact case: a record of which nothing was set apart gives none.
 */
export function tooMuchApart(given: Readings, without: Readings): string {
  const before = present(given);
  // A record of time errors turned into one of rates has one value less.
  const lost = before - present(without) - (given.kind === without.kind ? 0 : 1);
  const share = lost / before;
  return share > mostApart
    ? `${Math.round(100 * share)} % of the readings run otherwise than the rest, so that the record has no one rate`
    : "";
}

/** Estimates as they are where a record has no one rate. */
export function notOfOneRate(estimates: readonly RateEstimate[], why: string): RateEstimate[] {
  return estimates.map((estimate) => ({ ...estimate, applies: false, why }));
}

function present(readings: Readings): number {
  const values = readings.kind === "period" ? readings.period : readings.timeError;
  let count = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i]!)) count++;
  return count;
}
