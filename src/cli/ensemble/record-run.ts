import { type RecordColumns, type RunOptions, RunRecord, Simulation } from "../../chain/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import { RunEnd } from "../run-end.ts";

/** Readings of a run in memory, and how it went. */
export interface RecordedRun extends RecordColumns {
  /** Simulated length; s. */
  readonly length: number;
  /** Time on the clock's own oscillator; s. */
  readonly fallbackTime: number;
}

/**
 * Simulates a run and keeps its readings in memory; writes nothing.
 *
 * @param scenario - the scenario
 * @param options - seed, length and recording, all settled
 * @param most - readings kept one by one; beyond, neighbours are joined (see `RunRecord`)
 * @returns readings with the truth beside them
 */
export function recordRun(scenario: Scenario, options: RunOptions, most?: number): RecordedRun {
  const record = RunRecord.of(scenario, most);
  const simulation = new Simulation(scenario, options, {
    reading(reading) {
      record.add(reading);
      end.add(reading);
    },
  });
  const end = new RunEnd(simulation, options);
  simulation.run();
  const { fallbackTime } = simulation.slips;
  return { ...record.read(), length: end.length, fallbackTime };
}
