import type { Edge } from "../kernel/index.ts";
import type { ReadingSink } from "../stages/counter/index.ts";
import { burstOutcome } from "../stages/receiver/index.ts";

/** What becomes of a burst, as codes: what the detector made of it, or that it never arrived. */
export const outcome = { ...burstOutcome, dropped: 3 } as const;

/** Takes what a run computes, as it is computed; objects handed over are used again. */
export interface Sinks {
  readonly reading?: ReadingSink;
  /** A tick: its number, time error against the nominal rate in s, and the edge itself. */
  readonly tick?: (tick: number, timeError: number, edge: Edge) => void;
  /** A burst: its number, time error of its start in s, detection delay in s (NaN: none), outcome code. */
  readonly burst?: (burst: number, startError: number, delay: number, outcome: number) => void;
}
