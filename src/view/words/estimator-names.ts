import type { RateMethod } from "../../judgement/index.ts";

/** The estimators, as people call them, everywhere. */
export const estimatorNames: Readonly<Record<RateMethod, string>> = {
  mean_of_readings: "mean of readings",
  end_to_end: "end to end",
  line_fit: "line fit",
  best_fit: "best fit",
};
