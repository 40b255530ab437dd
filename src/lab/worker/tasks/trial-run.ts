import { estimateRates } from "../../../analysis/index.ts";
import {
  estimateTruths,
  runLength,
  runReadings,
  strategies,
  timeBaseBound,
} from "../../../planning/index.ts";
import { recordRun } from "../run-lesson.ts";
import type { Task } from "../task.ts";
import { plannedScenario } from "./run-lengths.ts";

/** Runs as long as foreseen, and sees whether the accuracy asked for was reached. */
export const trialRun: Task<"trial"> = async (bench, { seed, within, method }, pace) => {
  const planned = plannedScenario(bench);
  const strategy = strategies(planned, bench.delay(planned)).find((way) => way.method === method);
  if (strategy === undefined) throw new RangeError(`trialRun: method must be known, got ${method}`);
  const { length, readings, limitedBy } = runLength(planned, strategy, within);
  if (limitedBy !== null)
    throw new RangeError(`trialRun: method must reach the goal: ${limitedBy}`);
  const scenario = { ...planned, counter: strategy.counter };
  const record = await recordRun(scenario, seed, { readings, recording: "lazy" }, pace);
  const bound = timeBaseBound(scenario).bound;
  const estimates = estimateRates(runReadings(scenario, record), { systematicBound: bound });
  const estimate = estimates.find((one) => one.method === strategy.estimator)!;
  const truth = estimateTruths(scenario, record)[strategy.estimator].rateOverRun;
  return {
    estimate: { ...estimate, truth },
    length,
    readings,
    isWithin: Math.abs(estimate.rate - truth) <= within,
  };
};
