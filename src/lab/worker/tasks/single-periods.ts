import { readingRates, recordRun } from "../run-lesson.ts";
import type { Task } from "../task.ts";
import { budgetOf, longRunRate, scatterOf } from "../theory.ts";

/** Single periods that the step can show. */
const mostPeriods = 100;

/** The first periods of a run, one by one. */
export const singlePeriods: Task<"periods"> = async (bench, { seed }, pace) => {
  const { lesson } = bench;
  const record = await recordRun(lesson, seed, { readings: mostPeriods }, pace);
  const { rate, steady } = readingRates(lesson, record);
  const found = budgetOf(lesson, bench.delay(lesson));
  const longRun = longRunRate(found);
  const { timebase } = lesson.counter;
  // What the hour of the day makes of the rate, and the time base, shift all of them alike.
  const shift =
    steady.reduce((sum, value) => sum + value, 0) / steady.length -
    longRun -
    (timebase === "reference" ? 0 : timebase.fractionalOffset);
  return {
    start: record.start.slice(),
    period: record.interval.map((value, i) => value / record.cycles[i]!),
    rate,
    longRun,
    theory: Math.hypot(scatterOf(found, mostPeriods), shift),
  };
};
