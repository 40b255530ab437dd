import type { Sinks } from "../../chain/index.ts";
import {
  nominalPeriod,
  type RecordColumns,
  type RunOptions,
  RunRecord,
  Simulation,
  settleRun,
} from "../../chain/index.ts";
import type { Recording, Scenario } from "../../scenario/index.ts";
import type { ReadingSeries } from "../protocol.ts";
import type { Pace } from "./pace.ts";

/** How long a run lasts. */
export interface Extent {
  readonly length?: number;
  readonly readings?: number;
  readonly recording?: Recording;
}

/**
 * Lets a simulation go on to its end, in slices.
 *
 * @param simulation - the run
 * @param options - what it was made with
 * @param pace - hears of the share done
 */
export async function runToEnd(
  simulation: Simulation,
  options: RunOptions,
  pace: Pace,
): Promise<void> {
  while (!simulation.run(1)) {
    await pace.breathe(
      options.endsAtLength
        ? simulation.now / options.length
        : simulation.readings / (options.readings ?? 1),
    );
  }
}

/**
 * Runs a scenario and keeps its readings with their truth.
 *
 * @param scenario - the scenario, its counter set
 * @param seed - of the run
 * @param extent - length in s, or number of readings
 * @param pace - of the task
 * @param sinks - take ticks and bursts
 */
export async function recordRun(
  scenario: Scenario,
  seed: string,
  extent: Extent,
  pace: Pace,
  sinks: Omit<Sinks, "reading"> = {},
): Promise<RecordColumns> {
  const { options } = settleRun(scenario, {
    seed,
    length: extent.length ?? null,
    readings: extent.readings ?? null,
    recording: extent.recording ?? null,
    wantsTicks: sinks.tick !== undefined,
    wantsBursts: sinks.burst !== undefined,
  });
  const record = RunRecord.of(scenario);
  const simulation = new Simulation(scenario, options, {
    ...sinks,
    reading: (reading) => record.add(reading),
  });
  await runToEnd(simulation, options, pace);
  return record.read();
}

/**
 * Readings of a record as the page shows them.
 *
 * @param scenario - the scenario of the run
 * @param record - what it recorded, of a counter of periods
 */
export function readingSeries(scenario: Scenario, record: RecordColumns): ReadingSeries {
  const period = nominalPeriod(scenario);
  const { cycles, interval, error, errorOverRun } = record;
  // s = Δx/(n·T) is the slope of the time error, and the rate s/(1 − s).
  const rateOf = (gained: number, n: number) => gained / (n * period - gained);
  // The truth knows how many periods there really were, whatever the counter counted.
  const periods = interval.map((value, i) =>
    Number.isNaN(value) ? cycles[i]! : Math.round(value / period),
  );
  let gained = 0;
  let counted = 0;
  for (let i = 0; i < cycles.length; i++) {
    if (Number.isNaN(interval[i]!)) continue;
    gained += errorOverRun[i]!;
    counted += periods[i]!;
  }
  return {
    start: record.start.slice(),
    cycles: cycles.slice(),
    period: interval.map((value, i) => value / cycles[i]!),
    // Nothing counted in no time at all is no rate.
    rate: error.map((value, i) => (interval[i]! > 0 ? rateOf(value, cycles[i]!) : Number.NaN)),
    truth: errorOverRun.map((value, i) => rateOf(value, periods[i]!)),
    truthOverall: rateOf(gained, counted),
    nominalPeriod: period,
  };
}
