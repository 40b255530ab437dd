import type { RateEstimate } from "../../judgement/index.ts";
import { finiteOrNull } from "./finite-or-null.ts";

const interval = ([low, high]: readonly [number, number]) =>
  Number.isFinite(low) && Number.isFinite(high) ? [low, high] : null;

/**
 * A rate estimate as other programs read it: snake_case keys, null for what is not known.
 */
export function estimateToJson(estimate: RateEstimate) {
  return {
    method: estimate.method,
    rate: finiteOrNull(estimate.rate),
    seconds_per_day: finiteOrNull(estimate.secondsPerDay),
    standard_uncertainty: finiteOrNull(estimate.standardUncertainty),
    interval_95: interval(estimate.interval95),
    steady_standard_uncertainty: estimate.steadyStandardUncertainty,
    steady_interval_95: estimate.steadyInterval95 && interval(estimate.steadyInterval95),
    naive_standard_uncertainty: finiteOrNull(estimate.naiveStandardUncertainty),
    next_run_standard_deviation: finiteOrNull(estimate.nextRunStandardDeviation),
    systematic_bound: estimate.systematicBound,
    applies: estimate.applies,
    why: estimate.why,
    steady_why: estimate.steadyWhy,
  };
}
