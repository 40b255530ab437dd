import { type RecordColumns, RunRecord } from "../../chain/run-record.ts";
import { type RunOptions, Simulation } from "../../chain/simulation.ts";
import type { Scenario } from "../../scenario/scenario.ts";

/**
 * Simulates a run and keeps its readings in memory; writes nothing.
 *
 * @param scenario - the scenario
 * @param options - seed, length and recording, all settled
 * @param most - readings kept one by one; beyond, neighbours are joined (see `RunRecord`)
 * @returns readings with the truth beside them
 */
export function recordRun(scenario: Scenario, options: RunOptions, most?: number): RecordColumns {
  const { technique, timebase, deadTime } = scenario.counter;
  const record = new RunRecord(
    technique === "time_interval",
    timebase === "reference",
    deadTime === 0,
    most,
  );
  new Simulation(scenario, options, { reading: (reading) => record.add(reading) }).run();
  return record.read();
}
