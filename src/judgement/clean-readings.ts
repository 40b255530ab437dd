import type { Readings } from "../readings/index.ts";
import type { Outlier } from "./outlier.ts";
import { type RepairedReadings, repairSlips } from "./repair-slips.ts";
import { setSpansApart } from "./set-spans-apart.ts";
import { setStraysApart } from "./set-strays-apart.ts";

/** A record with slips repaired and what is no whole slip set apart. */
export interface CleanReadings {
  readonly repaired: RepairedReadings;
  /** Strays, and spans of readings at another rate. */
  readonly strays: readonly Outlier[];
  /** The record to estimate the rate from. */
  readonly without: Readings;
}

/**
 * Cleans a record before its rate is estimated: counts put right first, strays and spans at another rate set apart.
 *
 * @param given - the record; at least one reading not missing
 * @param slipUnit - smallest slip; cycles, 0 < unit <= 1
 * @returns the cleaned record, and what was wrong
 *
 * Source: see the single steps. Exact case: a record without outliers comes back as it is.
 */
export function cleanReadings(given: Readings, slipUnit: number): CleanReadings {
  const repaired = repairSlips(given, slipUnit);
  const apart = setStraysApart(repaired.readings);
  const { spans, without } =
    apart.without.kind === "period" && apart.strays.length >= 2
      ? setSpansApart(apart.without)
      : { spans: [], without: apart.without };
  // A record of time errors turned into one of rates counts seconds.
  const told =
    given.kind === "period"
      ? spans
      : spans.map((span) => ({
          ...span,
          cycles: span.cycles / (given.nominalPeriod ?? Number.NaN),
          timeError: -span.cycles,
        }));
  return { repaired, strays: [...apart.strays, ...told], without };
}
