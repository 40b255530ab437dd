import type { ChartOptions } from "../chart/index.ts";

/** What is known beside the readings of which pictures are drawn. */
export interface PictureContext {
  /** Title of the scenario or data, in the user's own words. */
  readonly title: string;
  /** Size and unit of the pictures. */
  readonly look: Pick<ChartOptions, "width" | "height" | "paper" | "rateUnit">;
  /** The rate that is true, or null where nobody knows; dimensionless. */
  readonly truth: number | null;
  /** Half-width of a bound on what shifts every reading alike (the time base); dimensionless, >= 0. */
  readonly systematicBound: number;
  readonly slips: readonly { readonly at: number; readonly steps: number }[];
  /** Whether the time error jumps where there is no slip: no line goes through it then. */
  readonly jumps?: boolean;
  /** When the clock ran on its own oscillator; s. */
  readonly fallback: readonly { readonly from: number; readonly to: number }[];
}

/** Values that are there. */
export function validCount(values: Float64Array): number {
  return values.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0);
}
