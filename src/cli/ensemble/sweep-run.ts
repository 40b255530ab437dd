import { estimateRates } from "../../analysis/rate/estimate-rates.ts";
import type { RunOptions } from "../../chain/simulation.ts";
import { estimateTruths, runReadings } from "../../planning/run-readings.ts";
import type { Scenario } from "../../scenario/scenario.ts";
import { type SummaryCell, summaryCells } from "../../table/summary-columns.ts";
import { knownShift } from "./known-shift.ts";
import { recordRun } from "./record-run.ts";

/** One run of a sweep. */
export interface SweepJob {
  readonly kind: "sweep";
  readonly scenario: Scenario;
  readonly options: RunOptions;
}

/**
 * Runs one member of a sweep and sums it up.
 *
 * @returns cells of its row, from the first method on; empty cells where it gave too few readings
 */
export function sweepRun({ scenario, options }: SweepJob): SummaryCell[] {
  const record = recordRun(scenario, options);
  const count = record.interval.reduce((n, interval) => (Number.isNaN(interval) ? n : n + 1), 0);
  const isEnough = count >= (scenario.counter.technique === "time_interval" ? 2 : 1);
  if (!isEnough) return summaryCells([], null, 0);
  const estimates = estimateRates(runReadings(scenario, record));
  return summaryCells(estimates, estimateTruths(scenario, record), knownShift(scenario));
}
