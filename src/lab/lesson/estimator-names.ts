import type { EstimatorMethod } from "../../judgement/index.ts";

/** The estimators in words. */
export const estimatorNames: Readonly<Record<EstimatorMethod, string>> = {
  mean_of_readings: "mean of readings",
  end_to_end: "end to end",
  line_fit: "line fit",
};
