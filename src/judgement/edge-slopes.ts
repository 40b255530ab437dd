import { endToEndSlope } from "./end-to-end-slope.ts";
import { lineFitSlope } from "./line-fit-slope.ts";
import type { EstimatorMethod } from "./rate-estimate.ts";

/**
 * Slope of time error over the edges of a record.
 *
 * @param edge - number of each edge, ascending; N >= 2 values, dimensionless
 * @param x - time error of these edges; N values, s
 * @param nominalPeriod - nominal period; s, > 0
 * @returns the slope s; dimensionless
 */
export type EdgeSlope = (edge: Float64Array, x: Float64Array, nominalPeriod: number) => number;

/** The estimators that need nothing but edges: readings and their truth go through the same ones. */
export const edgeSlopes: Readonly<Record<Exclude<EstimatorMethod, "mean_of_readings">, EdgeSlope>> =
  {
    end_to_end: endToEndSlope,
    line_fit: lineFitSlope,
  };
