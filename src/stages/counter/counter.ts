import type { Edge } from "../../kernel/index.ts";
import type { Instant } from "../../numeric/index.ts";

/** What every technique of counting offers to the chain. */
export interface Counter {
  /**
   * Edges before this moment of true time cannot matter, so nobody need compute them. It is set with a
   * margin: an edge after it need not matter either.
   */
  readonly wake: Instant;
  /** Takes an edge. Edges come in order of time. */
  offer(edge: Edge): void;
  /** The run ends at this moment of true time: readings that are due by then are given. */
  finish(end: Edge): void;
  /** Plans one missed (−1) or extra (+1) edge from this true time on; s. Calls come in order. */
  plan(at: number, cycles: 1 | -1): void;
}
