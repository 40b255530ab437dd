import type { Slip } from "../chain/index.ts";
import { type RunOptions, RunRecord, Simulation } from "../chain/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { BenchLog, type LogTruth } from "../view/table/index.ts";
import { isInterrupted } from "./interrupt.ts";
import { PacedSink } from "./paced-sink.ts";
import type { Progress } from "./progress.ts";
import { RunEnd } from "./run-end.ts";
import { runWriters } from "./run-writers.ts";
import type { TextSink, Written } from "./text-sink.ts";

/** Where the tables of a run go; null: not wanted. */
export interface RunTables {
  readonly readings: TextSink;
  readonly ticks: TextSink | null;
  readonly bursts: TextSink | null;
  /** log.txt, where the scenario has a log section. */
  readonly log?: TextSink | null;
}

/** What a run came to. */
export interface RunOutcome {
  readonly record: RunRecord;
  /** Rows of each table. */
  readonly counts: Readonly<Record<string, number>>;
  readonly written: Readonly<Record<string, Written>>;
  /** What was done to log.txt; null where none was written. */
  readonly logTruth: LogTruth | null;
  /** Ticks of the clock, looked at or not. */
  readonly ticks: number;
  readonly readings: number;
  /** Simulated length; s. */
  readonly length: number;
  readonly slips: readonly Slip[];
  readonly slipsNotListed: number;
  readonly displacedSteps: number;
  /** Spans on the clock's own oscillator: from, to; s. */
  readonly fallback: readonly (readonly [number, number])[];
  /** Time in all of them, in those not listed too; s. */
  readonly fallbackTime: number;
  readonly wasInterrupted: boolean;
}

/** Acts of the simulator before signals and the terminal get their turn. */
const actsAtOnce = 16;

/**
 * Runs a scenario and writes its tables. Stops in good order when the process was told to.
 */
export async function simulate(
  scenario: Scenario,
  options: RunOptions,
  tables: RunTables,
  progress: Progress,
): Promise<RunOutcome> {
  const { counter } = scenario;
  const isTimeInterval = counter.technique === "time_interval";
  const record = RunRecord.of(scenario);
  const { readings, ticks, bursts, log } = tables;
  const bench =
    log && scenario.log
      ? new BenchLog(scenario.log, options.seed, (text) => log.write(text))
      : null;
  const writers = runWriters(readings, ticks, bursts, isTimeInterval, counter.displayDigits);
  const write = writers.sinks.reading!;
  const simulation = new Simulation(scenario, options, {
    ...writers.sinks,
    reading(reading) {
      record.add(reading);
      end.add(reading);
      write(reading);
      bench?.take(reading);
      if (!(readings instanceof PacedSink)) return;
      readings.due = reading.start.whole + reading.start.fraction + (reading.interval || 0);
      writers.flush();
    },
  });
  const end = new RunEnd(simulation, options);
  while (!isInterrupted() && !simulation.run(actsAtOnce)) {
    const share = options.endsAtLength
      ? simulation.now / options.length
      : simulation.readings / (options.readings ?? 1);
    progress.show(share);
    if (readings instanceof PacedSink) await readings.drain();
    await new Promise((resume) => setImmediate(resume));
  }
  progress.clear();
  writers.flush();
  if (readings instanceof PacedSink) await readings.drain();
  const logTruth = bench?.end() ?? null;
  const written: Record<string, Written> = {};
  for (const [name, table] of Object.entries(tables)) if (table) written[name] = table.close();
  return {
    record,
    counts: writers.counts(),
    written,
    logTruth,
    ticks: simulation.ticks,
    readings: simulation.readings,
    length: end.length,
    slips: simulation.slips.slips,
    slipsNotListed: simulation.slips.notListed,
    displacedSteps: simulation.displacedSteps,
    fallback: simulation.slips.fallback,
    fallbackTime: simulation.slips.fallbackTime,
    wasInterrupted: isInterrupted(),
  };
}
