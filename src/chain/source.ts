import type { Edge } from "../kernel/index.ts";
import type { Instant } from "../numeric/index.ts";
import type { Disturbance } from "../scenario/index.ts";

/** The disturbances that befall the drive and the clock; those of the counter it deals with itself. */
export type ChainDisturbance = Exclude<Disturbance, { kind: "missed_edge" | "extra_edge" }>;

/** Whatever makes the edges of a run: a clock on bursts, a clock that divides, a stage watched directly. */
export interface Source {
  /** A disturbance begins at a moment, a rounding before which it is now; those that last end by `end`. */
  begin(disturbance: ChainDisturbance, at: Instant): void;
  end(disturbance: ChainDisturbance, at: Instant): void;
  /** A little before a disturbance begins or ends: look closely from now on. */
  approach(): void;
  /** Writes the count and the truth at the end of the run into an edge, whose moment is set. */
  finish(edge: Edge): void;
  /** The run ends: writes down the displacement that was still pending. */
  settle(at: Instant): void;
  /** Acts no more. */
  stop(): void;
  /** Ticks (or edges) made so far, looked at or not. */
  readonly count: number;
}
