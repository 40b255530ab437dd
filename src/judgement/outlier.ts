/** A reading that does not belong to the others as it stands. */
export interface Outlier {
  /** Number of the reading in the record, from 0. */
  readonly reading: number;
  /** A step is one of the time error that is no whole slip; a span, readings from this one on at another rate. */
  readonly kind: "missed_edge" | "extra_edge" | "stray" | "step" | "span";
  /**
   * Cycles by which its count is wrong, > 0 for missed ones; else its distance in cycles, > 0 where lost; NaN for time
   * errors of which no nominal period is known.
   */
  readonly cycles: number;
  /** Whether the count was put right and the reading kept. */
  readonly repaired: boolean;
  /** How far the time error is off, where the record is one of time errors; s. */
  readonly timeError?: number;
}
