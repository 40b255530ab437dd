import {
  nominalPeriod,
  type RecordColumns,
  type RunOptions,
  RunRecord,
  Simulation,
  type Sinks,
  settleRun,
} from "../../chain/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import type { Pace } from "./pace.ts";

/**
 * What a run depends on, settled as the command line does: the page has no recording mode of its own, so that
 * all its steps look at the very same ticks, and at those of `tickwright run`.
 */
export function settle(
  scenario: Scenario,
  seed: string,
  extent: { readonly length?: number; readonly readings?: number },
  sinks: Pick<Sinks, "tick" | "burst"> = {},
): RunOptions {
  return settleRun(scenario, {
    seed,
    length: extent.length ?? null,
    readings: extent.readings ?? null,
    recording: null,
    wantsTicks: sinks.tick !== undefined,
    wantsBursts: sinks.burst !== undefined,
  }).options;
}

/**
 * Runs a scenario to its end, in slices.
 *
 * @param scenario - the scenario
 * @param options - from `settle`
 * @param sinks - take what is computed
 * @param pace - hears of the share done
 */
export async function runToEnd(
  scenario: Scenario,
  options: RunOptions,
  sinks: Sinks,
  pace: Pace,
): Promise<Simulation> {
  const simulation = new Simulation(scenario, options, sinks);
  while (!simulation.run(1)) {
    await pace.breathe(
      options.endsAtLength
        ? simulation.now / options.length
        : simulation.readings / (options.readings ?? 1),
    );
  }
  return simulation;
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
  extent: { readonly length?: number; readonly readings?: number },
  pace: Pace,
  sinks: Pick<Sinks, "tick" | "burst"> = {},
): Promise<RecordColumns> {
  const record = RunRecord.of(scenario);
  const reading = record.add.bind(record);
  await runToEnd(scenario, settle(scenario, seed, extent, sinks), { ...sinks, reading }, pace);
  return record.read();
}

/**
 * Rates of single readings: read, and what they would be from deterministic causes alone.
 *
 * @param scenario - the scenario of the run
 * @param record - what it recorded, of a counter of periods
 */
export function readingRates(scenario: Scenario, record: RecordColumns) {
  const period = nominalPeriod(scenario);
  const { cycles, interval, error, steadyError } = record;
  // s = Δx/(n·T) is the slope of the time error, and the rate s/(1 − s).
  const rateOf = (gained: number, n: number) => gained / (n * period - gained);
  return {
    // Nothing counted in no time at all is no rate.
    rate: error.map((value, i) => (interval[i]! > 0 ? rateOf(value, cycles[i]!) : Number.NaN)),
    steady: steadyError.map((value, i) => rateOf(value, cycles[i]!)),
  };
}
