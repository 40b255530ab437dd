import type { RunOptions } from "../../chain/index.ts";
import { cleanedEstimates } from "../../judgement/index.ts";
import { estimateTruths, raceOfScenario, runReadings, unraced } from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { type SummaryCell, summaryCells } from "../../view/table/index.ts";
import { shareWithoutDrive, withoutRate } from "../without-drive.ts";
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
 * @returns cells of its row, from the first method on, of the estimates that `run` gives; empty cells where there
 *   are too few readings, and no rates, but their truths, where the clock was hardly driven
 */
export function sweepRun({ scenario, options }: SweepJob): SummaryCell[] {
  const record = recordRun(scenario, options);
  const count = record.interval.reduce((n, interval) => (Number.isNaN(interval) ? n : n + 1), 0);
  const isEnough = count >= (scenario.counter.technique === "time_interval" ? 2 : 1);
  if (!isEnough) return summaryCells([], null, 0);
  const { clock, counter } = scenario;
  const found = cleanedEstimates(runReadings(scenario, record), 1 / clock.stepsPerTick);
  const share = counter.input === "clock" ? shareWithoutDrive(record) : null;
  const race = raceOfScenario(scenario);
  const estimates = found.map((estimate) =>
    share === null ? unraced(estimate, race) : withoutRate(estimate, share),
  );
  return summaryCells(estimates, estimateTruths(scenario, record), knownShift(scenario));
}
