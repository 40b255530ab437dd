/** A reading that does not belong to the others as it stands. */
export interface Outlier {
  /** Number of the reading in the record, from 0. */
  readonly reading: number;
  readonly kind: "missed_edge" | "extra_edge" | "stray";
  /** Cycles by which its count is wrong, > 0 for missed ones; for a stray its distance in cycles. */
  readonly cycles: number;
  /** Whether the count was put right and the reading kept. */
  readonly repaired: boolean;
}
