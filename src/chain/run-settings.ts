import type { Recording, Scenario } from "../scenario/scenario.ts";
import { nominalPeriod } from "./nominal-period.ts";
import { chooseRecording } from "./recording.ts";
import type { RunOptions } from "./simulation.ts";

/** What may be asked of a run on top of its scenario. */
export interface RunRequest {
  readonly seed: string;
  /** Simulated length; s, or null for the scenario's. */
  readonly length: number | null;
  /** Readings after which the run ends, or null. */
  readonly readings: number | null;
  readonly recording: Recording | null;
  /** Outputs that need every tick, every burst. */
  readonly wantsTicks: boolean;
  readonly wantsBursts: boolean;
}

/**
 * Settles everything a run depends on before it starts.
 *
 * With `readings` but no `length` the run goes on until the readings are there; its length, which only the
 * default recording mode and some bounds depend on, is then what they should take.
 *
 * @returns the options of the run, and what forced another recording mode than the default, or null
 */
export function settleRun(
  scenario: Scenario,
  request: RunRequest,
): { readonly options: RunOptions; readonly forcedBy: string | null } {
  const { counter } = scenario;
  const endsAtLength = request.readings === null || request.length !== null;
  const period = nominalPeriod(scenario);
  const gate = counter.gate === "single" ? period : counter.gate;
  const cycle = Math.ceil((gate + counter.deadTime) / period) * period;
  const expected = (request.readings ?? 0) * cycle;
  const length = request.length ?? (endsAtLength ? scenario.length : expected);
  const wants = { ticks: request.wantsTicks, bursts: request.wantsBursts };
  const { recording, forcedBy } = chooseRecording(scenario, length, request.recording, wants);
  const { seed, readings } = request;
  return { options: { seed, length, endsAtLength, readings, recording }, forcedBy };
}
