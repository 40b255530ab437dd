import { gateUnit, withGate } from "../../lesson/lesson-scenario.ts";
import type { GateSeries } from "../../protocol.ts";
import { readingSeries, recordRun } from "../run-lesson.ts";
import { spreadOf } from "../spread-of.ts";
import type { Task } from "../task.ts";

/** Gates compared; in units of the gate. */
const gates = [1, 2, 5, 10, 20, 50, 100];

/** Length of the run they share; in units of the gate. */
const units = 2000;

/**
 * The very same ticks seen through gates of different lengths.
 *
 * Every tick is computed, so that the runs differ in the counter alone.
 */
export const gatesCompared: Task<"gates"> = async ({ lesson }, { seed }, pace) => {
  const length = (units + 2) * gateUnit(lesson);
  const isLookedThrough = lesson.counter.input === "clock";
  const series: GateSeries[] = [];
  let truth = Number.NaN;
  for (const periods of gates) {
    const scenario = withGate(lesson, periods);
    const extent = isLookedThrough ? { length, recording: "ticks" as const } : { length };
    const all = readingSeries(scenario, await recordRun(scenario, seed, extent, pace));
    if (periods === 1) truth = all.truthOverall;
    series.push({
      periods,
      gate: periods * gateUnit(lesson),
      rate: all.rate,
      spread: spreadOf(all),
    });
  }
  return { truth, series, length };
};
