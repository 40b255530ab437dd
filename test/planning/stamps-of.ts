import type { Weighting } from "../../src/planning/index.ts";

/** The stamps of an estimator and its weights, written out from the definitions, for sums by brute force. */
export function stampsOf(weighting: Weighting): { times: number[]; weights: number[] } {
  const times: number[] = [];
  const weights: number[] = [];
  if (weighting.kind === "gates") {
    for (let k = 0; k < weighting.readings; k++) {
      times.push(k * weighting.spacing, k * weighting.spacing + weighting.gate);
      const weight = 1 / (weighting.readings * weighting.gate);
      weights.push(-weight, weight);
    }
    return { times, weights };
  }
  for (let k = 0; k < weighting.stamps; k++) times.push(k * weighting.spacing);
  const mean = times.reduce((a, b) => a + b) / times.length;
  const square = times.reduce((sum, t) => sum + (t - mean) ** 2, 0);
  for (const t of times) weights.push((t - mean) / square);
  return { times, weights };
}
