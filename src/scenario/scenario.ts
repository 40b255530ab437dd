import type { Disturbance } from "./disturbance-section.ts";
import type { LogParameters } from "./log-section.ts";
import type { Stages } from "./sections.ts";

/** Which edges a run computes: every burst, the bursts that make ticks, or what the counter looks at. */
export type Recording = "bursts" | "ticks" | "lazy";

/**
 * A validated scenario: defaults filled in, SI units, frozen. What a run needs, and all it needs.
 *
 * Stages left out of the file are null: without synthesizer, drive and receiver the clock divides the
 * reference. Drive and receiver come together, and need the synthesizer.
 */
export interface Scenario extends Stages {
  readonly title: string;
  /** Seed written in the file, or null where the file has none. */
  readonly seed: string | null;
  /** Simulated length of a run; s, > 0. */
  readonly length: number;
  /** Recording mode the file asks for, or null: chosen from the length. */
  readonly recording: Recording | null;
  /** How log.txt is written; null: it is not. */
  readonly log: LogParameters | null;
  readonly disturbances: readonly Disturbance[];
}
