import type { LogTruth } from "./bench-log.ts";
/** How a result came about: enough to make it again, and to see whether it came out the same. */
export interface Provenance {
  readonly schema_version: 1;
  readonly tool: string;
  readonly version: string;
  /** The scenario with defaults filled in and changes from the command line applied, as plain data. */
  readonly scenario: Readonly<Record<string, unknown>>;
  /** The scenario file as it was read. */
  readonly scenario_text: string;
  /** SHA-256 of that text in UTF-8; 64 hexadecimal digits. */
  readonly scenario_sha256: string;
  /** Which edges the run computed. */
  readonly recording: "bursts" | "ticks" | "lazy";
  readonly seed: string;
  /** Simulated length the run was set to; s. */
  readonly length_s: number;
  /** Whether that length ended it; else the readings wanted did. */
  readonly ends_at_length: boolean;
  /** Readings after which it was to end, or null. */
  readonly readings_wanted: number | null;
  /** Whether it was interrupted: its tables are complete rows, but not all of them. */
  readonly was_interrupted: boolean;
  /** Name of the random generator and of the way it is seeded. */
  readonly generator: string;
  readonly node: string;
  readonly v8: string;
  readonly platform: string;
  /** Numbers of things made: readings, ticks, bursts, … */
  readonly counts: Readonly<Record<string, number>>;
  readonly warnings: readonly {
    readonly code: string;
    readonly path: string | null;
    readonly message: string;
  }[];
  /** What is true in the simulated world, for comparison with what an analysis finds. */
  readonly truth: Readonly<Record<string, unknown>>;
  /** SHA-256 of each file, by path; 64 hexadecimal digits. */
  readonly digests: Readonly<Record<string, string>>;
  /** What was done to log.txt, where one was written. */
  readonly log?: LogTruth;
}
