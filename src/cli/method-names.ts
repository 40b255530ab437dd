/** The estimators, as people call them. */
export const methodNames = {
  mean_of_readings: "mean of readings",
  end_to_end: "end to end",
  line_fit: "line fit",
} as const;
