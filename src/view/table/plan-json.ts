import type { DialAhead, Prediction, RunLength, Strategy } from "../../planning/index.ts";
import { wayInWords } from "../words/index.ts";
import { raceToJson } from "./budget-json.ts";
import { finiteOrNull } from "./finite-or-null.ts";

/** What simulated runs say to a row, where they were asked for. */
export interface VerifiedRow {
  /** NaN where nothing was simulated. */
  readonly observed: number;
  readonly runs: number;
  readonly ratio95: readonly [number, number];
  readonly agrees: boolean;
  readonly skipped: string | null;
}

/** What a row may hold beside the plan itself. */
export interface PlanRowExtras {
  readonly ahead: DialAhead | null;
  readonly verified: VerifiedRow | null;
}

/**
 * A way of measuring and how long it takes, as other programs read it.
 *
 * @param strategy - the way of measuring
 * @param length - the run it takes
 * @param prediction - what that run gives, or null where there is none
 */
export function strategyToJson(
  strategy: Strategy,
  length: RunLength,
  prediction: Prediction | null,
  extras: PlanRowExtras,
) {
  return {
    ...settingToJson(strategy),
    length_s: finiteOrNull(length.length),
    readings: finiteOrNull(length.readings),
    reachable: length.reachable,
    limited_by: length.limitedBy,
    standard_uncertainty: prediction && finiteOrNull(prediction.standardUncertainty),
    source_deviation: prediction && finiteOrNull(prediction.sourceDeviation),
    ...extrasToJson(extras),
  };
}

/**
 * A way of measuring and what a run of a given length gives.
 *
 * @param strategy - the way of measuring
 * @param prediction - what the run gives
 * @param halfWidth - of the interval at the confidence asked for, bound included; NaN where there is none
 */
export function predictionToJson(
  strategy: Strategy,
  prediction: Prediction,
  halfWidth: number,
  extras: PlanRowExtras,
) {
  return {
    ...settingToJson(strategy),
    readings: prediction.readings,
    standard_uncertainty: finiteOrNull(prediction.standardUncertainty),
    source_deviation: finiteOrNull(prediction.sourceDeviation),
    half_width: finiteOrNull(halfWidth),
    limited_by: strategy.obstacle,
    ...extrasToJson(extras),
  };
}

const settingToJson = (strategy: Strategy) => ({
  method: strategy.method,
  description: wayInWords(strategy),
  input: strategy.counter.input,
  gate_s: strategy.counter.gate,
  dead_time_s: strategy.counter.deadTime,
  gate_race: raceToJson(strategy.race),
});

function extrasToJson({ ahead, verified }: PlanRowExtras) {
  return {
    ...(ahead === null
      ? {}
      : {
          ahead: {
            error_s: ahead.error,
            standard_uncertainty_s: ahead.standardUncertainty,
            systematic_bound_s: ahead.systematicBound,
            interval_s: ahead.interval,
          },
        }),
    ...(verified === null
      ? {}
      : {
          observed_rms: finiteOrNull(verified.observed),
          runs: verified.runs,
          ratio_95: verified.runs === 0 ? null : verified.ratio95.map(finiteOrNull),
          agrees: verified.agrees,
          skipped: verified.skipped,
        }),
  };
}
