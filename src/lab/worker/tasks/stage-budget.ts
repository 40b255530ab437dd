import { budget, budgetCurve } from "../../../planning/index.ts";
import { withGate } from "../../lesson/lesson-scenario.ts";
import { silenceStages } from "../../lesson/silence-stages.ts";
import { readingSeries, recordRun } from "../run-lesson.ts";
import { spreadOf } from "../spread-of.ts";
import type { Task } from "../task.ts";

/** Readings simulated beside the theory. */
const readings = 200;

/** The uncertainty budget with some stages silent, beside what a run shows. */
export const stageBudget: Task<"stages"> = async (bench, { seed, off, periods }, pace) => {
  const quiet = silenceStages(bench.lesson, off);
  const scenario = withGate(quiet, periods);
  // Lazily: what the counter does not look at has no part in the spread, and would cost time.
  const extent = { readings, recording: "lazy" as const };
  const record = await recordRun(scenario, seed, extent, pace);
  const simulated = spreadOf(readingSeries(scenario, record));
  const delay = bench.delay(scenario);
  const { rows, totalRandomRms, gate } = budget(scenario, scenario.counter.gate, delay);
  await pace.breathe(1);
  const curve = budgetCurve(scenario, delay);
  return {
    gates: curve.gates,
    courses: curve.rows
      .filter((row) => row.kind === "random" && row.fractions.some((value) => value > 0))
      .map(({ stage, cause, fractions }) => ({ name: `${stage}: ${cause}`, fraction: fractions })),
    total: curve.totalRandomRms,
    rows: rows.map(({ stage, cause, kind, fractionOfPeriodRms }) => ({
      stage,
      cause,
      kind,
      fraction: fractionOfPeriodRms,
    })),
    expected: totalRandomRms,
    simulated,
    gate,
  };
};
