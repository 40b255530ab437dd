import type { EstimatorMethod } from "../../analysis/index.ts";

/** The estimators, as people call them, everywhere. */
export const estimatorNames: Readonly<Record<EstimatorMethod, string>> = {
  mean_of_readings: "mean of readings",
  end_to_end: "end to end",
  line_fit: "line fit",
};
