import { Instant } from "../numeric/index.ts";

/** What befell the chain between two edges, as bits of `Edge.marks`. */
export const mark = {
  slip: 1,
  fallback: 2,
  driveRate: 4,
  amplitude: 8,
  missedEdge: 16,
  extraEdge: 32,
  noEdge: 64,
} as const;

/**
 * An edge that one stage hands to the next, with what an observer who knows everything would write beside it.
 *
 * One object is used again and again; whoever wants to keep an edge copies it.
 */
export class Edge {
  /** How many edges its source has made since the start of the run, this one included. */
  count = 0;
  /** When it happens; true time. */
  readonly instant = new Instant();
  /** Nominal time since the edge that was looked at before it; s. Noise is advanced by this much. */
  lapse = 0;
  /** Reading of the reference minus true time at this edge; s. */
  referenceError = 0;
  /** Nominal time of the chain at this edge, by the reference's own scale; s. */
  nominal = 0;
  /** Time error the source would have without jitter and slips, oscillator noise included; s. */
  errorOverRun = 0;
  /** The same from deterministic causes alone: offset, setting error, ageing, temperature; s. */
  steadyError = 0;
  /** That part of both which comes from the set rate alone, whatever the reference does; s. */
  settingError = 0;
  /** True while the clock runs on its own oscillator. */
  isFallback = false;
  /** What befell the chain since the edge before; bits of `mark`. */
  marks = 0;

  /** Takes over every field of another edge. */
  copy(other: Edge): void {
    this.count = other.count;
    this.instant.copy(other.instant);
    this.lapse = other.lapse;
    this.referenceError = other.referenceError;
    this.nominal = other.nominal;
    this.errorOverRun = other.errorOverRun;
    this.steadyError = other.steadyError;
    this.settingError = other.settingError;
    this.isFallback = other.isFallback;
    this.marks = other.marks;
  }
}
