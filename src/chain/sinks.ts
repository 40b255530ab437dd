import type { ReadingSink } from "../counter/reading.ts";
import type { Edge } from "../kernel/edge.ts";

/** How a burst ended, as codes in the order of `outcomeNames`. */
export const outcome = { step: 0, missed: 1, blocked: 2, dropped: 3 } as const;

/** Names of the outcomes of a burst, by code. */
export const outcomeNames = ["step", "missed", "blocked", "dropped"] as const;

/** Takes what a run computes, as it is computed; objects handed over are used again. */
export interface Sinks {
  readonly reading?: ReadingSink;
  /** A tick: its number, time error against the nominal rate in s, and the edge itself. */
  readonly tick?: (tick: number, timeError: number, edge: Edge) => void;
  /** A burst: its number, time error of its start in s, detection delay in s (NaN: none), outcome code. */
  readonly burst?: (burst: number, startError: number, delay: number, outcome: number) => void;
}
