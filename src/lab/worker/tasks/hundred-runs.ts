import { nominalPeriod } from "../../../chain/index.ts";
import { estimatorMethods, plainEstimates } from "../../../judgement/index.ts";
import { normalQuantile } from "../../../numeric/index.ts";
import { estimateTruths, runReadings, timeBaseBound } from "../../../planning/index.ts";
import type { PeriodReadings } from "../../../readings/index.ts";
import { gateUnit, withGate } from "../../lesson/lesson-scenario.ts";
import type { RunIntervals } from "../../protocol.ts";
import { recordRun } from "../run-lesson.ts";
import type { Task } from "../task.ts";
import { budgetOf, longRunRate } from "../theory.ts";

/** Runs taken. */
export const runs = 100;

/** The same measurement a hundred times, each run with a seed of its own, the first with that of the page. */
export const hundredRuns: Task<"hundred"> = async (bench, ask, pace) => {
  const { seed, units, readings, hasDeadTime } = ask;
  const period = nominalPeriod(bench.lesson);
  const deadTime = hasDeadTime ? period / 2 : 0;
  const scenario = withGate(bench.lesson, units, deadTime);
  const { bound } = timeBaseBound(scenario);
  const intervals: RunIntervals[] = [...estimatorMethods, "naive" as const].map((of) => ({
    of,
    rate: new Float64Array(runs),
    half: new Float64Array(runs),
    truth: new Float64Array(runs),
  }));
  const naive = normalQuantile(0.975);
  for (let run = 0; run < runs; run++) {
    await pace.breathe(run / runs);
    const own = run === 0 ? seed : `${seed} run ${run + 1}`;
    const record = await recordRun(scenario, own, { readings }, pace);
    const estimates = plainEstimates(runReadings(scenario, record) as PeriodReadings, {
      systematicBound: bound,
    });
    const truths = estimateTruths(scenario, record);
    for (const { of, rate, half, truth } of intervals) {
      const estimate = estimates.find(({ method }) => method === of) ?? estimates[0]!;
      const [low, high] = estimate.interval95;
      rate[run] = estimate.rate;
      truth[run] = truths[estimate.method].rateOverRun;
      const width = of === "naive" ? naive * estimate.naiveStandardUncertainty : (high - low) / 2;
      half[run] = width + bound;
    }
  }
  const longRun = longRunRate(budgetOf(scenario, bench.delay(scenario)));
  return { intervals, longRun, length: readings * (units * gateUnit(scenario) + deadTime) };
};
