import { plainEstimates } from "../../../judgement/index.ts";
import { lengthOf, runReadings, strategies } from "../../../planning/index.ts";
import { recordRun } from "../run-lesson.ts";
import type { Task } from "../task.ts";
import { budgetOf, longRunRate } from "../theory.ts";
import { plannedScenario } from "./run-lengths.ts";

/** Runs as long as foreseen, and finds a rate to be held against that of the long run. */
export const trialRun: Task<"trial"> = async (bench, { seed, readings, method }, pace) => {
  const planned = plannedScenario(bench);
  const delay = bench.delay(planned);
  const strategy = strategies(planned, delay).find((way) => way.method === method);
  if (strategy === undefined) throw new RangeError(`trialRun: method must be known, got ${method}`);
  const scenario = { ...planned, counter: strategy.counter };
  const record = await recordRun(scenario, seed, { readings }, pace);
  const estimates = plainEstimates(runReadings(scenario, record));
  return {
    rate: estimates.find((one) => one.method === strategy.estimator)!.rate,
    longRun: longRunRate(budgetOf(scenario, delay)),
    length: lengthOf(strategy.timing, readings),
    readings,
  };
};
