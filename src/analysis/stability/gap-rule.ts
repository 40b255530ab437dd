/**
 * What a statistic does with gaps, i.e. samples that are NaN.
 *
 * "keep": the gap stays visible, the result is NaN as soon as one sample used is NaN.
 * "skip": terms that touch a gap are left out and the others averaged; the result is NaN only if none is left.
 */
export type GapRule = "keep" | "skip";

/** A sum of squared terms, and how many terms it holds. */
export interface SquareSum {
  /** Sum of the squares of the terms without a gap; unit of the terms squared. */
  readonly sum: number;
  /** Terms in the sum. */
  readonly terms: number;
  /** Terms left out because they touch a gap. */
  readonly skipped: number;
}

/**
 * Mean of squared terms under a rule for gaps.
 *
 * @param squares - the sum and its counts
 * @param gaps - the rule
 * @returns sum/terms; unit of the terms squared. NaN if a gap forbids a result
 */
export function meanSquare(squares: SquareSum, gaps: GapRule): number {
  if (gaps === "keep" && squares.skipped > 0) return Number.NaN;
  return squares.sum / squares.terms;
}
