import { readingSeries, recordRun } from "../run-lesson.ts";
import type { Task } from "../task.ts";

/** Single periods that the first step can show. */
const mostPeriods = 100;

/** The first periods of a run, one by one. */
export const singlePeriods: Task<"periods"> = async ({ lesson }, { seed }, pace) =>
  readingSeries(lesson, await recordRun(lesson, seed, { readings: mostPeriods }, pace));
