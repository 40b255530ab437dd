/** All that the rows of a sweep depend on: the parts of one sweep agree in it. */
export interface SweepRequest {
  readonly version: string;
  readonly scenario_sha256: string;
  /** Changes from the command line. */
  readonly set: readonly string[];
  readonly vary: readonly { readonly path: string; readonly values: readonly string[] }[];
  /** Seed that the seeds of the runs are made from. */
  readonly seed: string;
  /** Runs of each combination of values. */
  readonly seeds: number;
  readonly length_s: number | null;
  readonly readings_wanted: number | null;
  readonly recording: string | null;
  /** Runs of all parts together. */
  readonly runs: number;
}

/** How the table of a sweep came about. */
export interface SweepProvenance {
  readonly schema_version: 1;
  readonly tool: string;
  readonly request: SweepRequest;
  /** Which part of the sweep the table holds. */
  readonly shard: { readonly index: number; readonly count: number };
  readonly rows: number;
  readonly scenario_text: string;
  readonly generator: string;
  readonly node: string;
  readonly v8: string;
  readonly platform: string;
  /** SHA-256 of each file, by path; 64 hexadecimal digits. */
  readonly digests: Readonly<Record<string, string>>;
}
