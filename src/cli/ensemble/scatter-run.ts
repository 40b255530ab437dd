import type { RunOptions } from "../../chain/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { knownShift } from "./known-shift.ts";
import { recordRun } from "./record-run.ts";

/** A run that shows how single readings scatter about the source's own rate in their gates. */
export interface ScatterJob {
  readonly kind: "scatter";
  readonly scenario: Scenario;
  readonly options: RunOptions;
  /** By how much steps lost or gained at random shift the rate on the average; dimensionless. */
  readonly slipRate: number;
}

/** Squares of the deviations of a run's readings, added up. */
export interface Scatter {
  /** Sum of squares; dimensionless. */
  readonly squares: number;
  /** How many there are. */
  readonly count: number;
}

/**
 * Runs one member of an ensemble and adds up the squares of its readings' deviations from their own truth.
 *
 * Of time intervals every two neighbours make a reading.
 */
export function scatterRun({ scenario, options, slipRate }: ScatterJob): Scatter {
  const record = recordRun(scenario, options);
  const shift = knownShift(scenario) - slipRate;
  const { start, interval, error, errorOverRun } = record;
  const isTimeInterval = scenario.counter.technique === "time_interval";
  let squares = 0;
  let count = 0;
  const add = (deviation: number, length: number) => {
    if (Number.isNaN(deviation)) return;
    squares += (deviation / length + shift) ** 2;
    count++;
  };
  for (let i = isTimeInterval ? 1 : 0; i < interval.length; i++) {
    if (!isTimeInterval) add(error[i]! - errorOverRun[i]!, interval[i]!);
    else {
      const gained = error[i]! - error[i - 1]! - (errorOverRun[i]! - errorOverRun[i - 1]!);
      add(gained, start[i]! - start[i - 1]!);
    }
  }
  return { squares, count };
}
