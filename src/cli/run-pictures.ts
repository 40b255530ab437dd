import type { RunOptions } from "../chain/simulation.ts";
import type { Scenario } from "../scenario/scenario.ts";
import type { RunOutcome } from "./simulate.ts";

/** A picture of a run. */
export interface Picture {
  readonly name: string;
  readonly file: string;
  readonly svg: string;
}

/** Pictures of a run. */
export function runPictures(
  _scenario: Scenario,
  _options: RunOptions,
  _outcome: RunOutcome,
): Picture[] {
  return [];
}
