import { nominalPeriod } from "../../../chain/index.ts";
import { recordRun } from "../run-lesson.ts";
import type { Task } from "../task.ts";
import { budgetOf, longRunRate, scatterOf } from "../theory.ts";

/** The first edges of a run, as the counter stamps them. */
export const ticks: Task<"ticks"> = async (bench, { seed, count }, pace) => {
  const { lesson } = bench;
  const { error } = await recordRun(lesson, seed, { readings: count }, pace);
  const late = new Float64Array(count + 1);
  for (let i = 0; i < count; i++) late[i + 1] = late[i]! - error[i]!;
  const found = budgetOf(lesson, bench.delay(lesson));
  const period = nominalPeriod(lesson);
  return {
    late,
    period,
    edgeRms: (found.totalRandomRms * period) / Math.SQRT2,
    longRun: longRunRate(found),
    carried: Math.sqrt((scatterOf(found, 2) / found.totalRandomRms) ** 2 - 1),
  };
};
