import type { Instant } from "../numeric/index.ts";

/** Edges of the synthesizer at equal distances, one number an edge. */
export class EdgeRow {
  /** How many. */
  edges = 0;
  /** Nominal times; s. */
  readonly nominals: Float64Array;
  /** Deterministic time errors, less the steady slope's part; s. */
  readonly variables: Float64Array;
  /** Random time errors; s. */
  readonly noiseErrors: Float64Array;
  /** Moments in true time: whole seconds, … */
  readonly wholes: Float64Array;
  /** … and remainders; s, 0 ≤ remainder < 1. */
  readonly fractions: Float64Array;

  /** @param most - edges it has room for */
  constructor(most: number) {
    const column = () => new Float64Array(most);
    this.nominals = column();
    this.variables = column();
    this.noiseErrors = column();
    this.wholes = column();
    this.fractions = column();
  }

  /** Sets an instant to the moment of an edge. */
  moment(i: number, out: Instant): void {
    out.whole = this.wholes[i]!;
    out.fraction = this.fractions[i]!;
  }
}
