import { nominalPeriod, type Recording, type Scenario } from "../scenario/index.ts";
import { gateTimes } from "../stages/counter/index.ts";
import { chooseRecording } from "./recording.ts";
import { requireRun } from "./require-run.ts";
import type { RunOptions } from "./simulation.ts";

/** What may be asked of a run on top of its scenario. */
export interface RunRequest {
  /** Seed of all random streams; any text. */
  readonly seed: string;
  /** Simulated length; s, > 0, or null for the scenario's. */
  readonly length: number | null;
  /** Readings after which the run ends; integer >= 1, or null. */
  readonly readings: number | null;
  /** Recording mode, or null for the scenario's, or else the default. */
  readonly recording: Recording | null;
  /** Whether every tick is to come to the sinks. */
  readonly wantsTicks: boolean;
  /** Whether every burst is to come to the sinks. */
  readonly wantsBursts: boolean;
}

/**
 * Settles everything a run depends on before it starts.
 *
 * With `readings` but no `length` the run goes on until the readings are there; its length, which only the
 * default recording mode and some bounds depend on, is then what they should take.
 *
 * @param scenario - the scenario
 * @param request - what is asked for on top of it
 * @returns the options of the run, and what forced another recording mode than the default, or null
 * @throws RangeError if the length or the number of readings asked for is outside the ranges above
 */
export function settleRun(
  scenario: Scenario,
  request: RunRequest,
): { readonly options: RunOptions; readonly forcedBy: string | null } {
  const { counter } = scenario;
  const endsAtLength = request.readings === null || request.length !== null;
  const period = nominalPeriod(scenario);
  const { shortest, deadTime } = gateTimes(counter, period);
  const cycle = Math.ceil((shortest + deadTime) / period) * period;
  const expected = (request.readings ?? 0) * cycle;
  const length = request.length ?? (endsAtLength ? scenario.length : expected);
  const wants = { ticks: request.wantsTicks, bursts: request.wantsBursts };
  const { recording, forcedBy } = chooseRecording(scenario, length, request.recording, wants);
  const { seed, readings } = request;
  const options = { seed, length, endsAtLength, readings, recording };
  requireRun("settleRun", options);
  return { options, forcedBy };
}
