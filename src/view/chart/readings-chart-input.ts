/** What a chart of readings shows. */
export interface ReadingsChartInput {
  /** Start of each reading; s, ascending. */
  readonly time: Float64Array;
  /** The readings; in `unit`, NaN for none. */
  readonly reading: Float64Array;
  /** Mean of all readings so far; in `unit`, NaN for none. */
  readonly mean: Float64Array;
  /** Half-width of the 95 % interval of that mean; in `unit`, NaN for none. */
  readonly halfWidth: Float64Array;
  /** What is true; in `unit`, or null where nobody knows. */
  readonly truth: number | null;
  /** What is read; default `Rate`. */
  readonly quantity?: string;
  /** Its SI unit, or `rate` for rates as a fraction, which is the default. */
  readonly unit?: string;
}
