import { edgeRecord, estimateRates } from "../../../analysis/index.ts";
import type { RecordColumns } from "../../../chain/index.ts";
import { nominalPeriod } from "../../../chain/index.ts";
import { estimateTruths, runReadings, timeBaseBound } from "../../../planning/index.ts";
import type { PeriodReadings } from "../../../readings/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { gateUnit, withGate } from "../../lesson/lesson-scenario.ts";
import type { JudgedEstimate } from "../../protocol.ts";
import { fittedLine } from "../fitted-line.ts";
import { readingSeries, recordRun } from "../run-lesson.ts";
import { runningMean } from "../running-mean.ts";
import { spreadOf } from "../spread-of.ts";
import type { Task } from "../task.ts";
import { treatOutlier } from "../treat-outlier.ts";

/** Many gates, one after the other, and what three estimators make of them. */
export const manyGates: Task<"many"> = async ({ lesson }, ask, pace) => {
  const { seed, periods, readings, hasDeadTime, outlier } = ask;
  const period = nominalPeriod(lesson);
  const deadTime = hasDeadTime ? period / 2 : 0;
  const gated = withGate(lesson, periods, deadTime);
  const middle = (Math.floor(readings / 2) + 0.5) * periods * gateUnit(lesson);
  const scenario: Scenario =
    outlier === "none"
      ? gated
      : {
          ...gated,
          disturbances: [{ kind: "missed_edge", at: middle * (hasDeadTime ? 1 + 1 / periods : 1) }],
        };
  const record = await recordRun(scenario, seed, { readings }, pace);
  const calm = outlier === "none" ? record : treatOutlier(record, period, "dropped").treated;
  const single = spreadOf(readingSeries(gated, calm));
  await pace.breathe(1);
  const { treated, at } = treatOutlier(record, period, outlier);
  const seen = runReadings(scenario, treated) as PeriodReadings;
  const shown = readingSeries(scenario, treated);
  const estimates = judge(scenario, treated, seen);
  const { edge, x } = edgeRecord(seen);
  const bound = timeBaseBound(scenario).bound;
  return {
    readings: shown,
    outlierAt: at,
    estimates,
    ...(await runningMean(seen, bound, pace)),
    edgeTime: edge.map((n) => n * period),
    edgeError: x,
    fit: fittedLine(
      edge.map((n) => n * period),
      x,
    ),
    single,
    deadTime,
  };
};

function judge(
  scenario: Scenario,
  record: RecordColumns,
  readings: PeriodReadings,
): readonly JudgedEstimate[] {
  const truths = estimateTruths(scenario, record);
  const bound = timeBaseBound(scenario).bound;
  return estimateRates(readings, { systematicBound: bound }).map((estimate) => ({
    ...estimate,
    truth: truths[estimate.method].rateOverRun,
  }));
}
