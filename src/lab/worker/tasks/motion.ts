import { nominalPeriod } from "../../../chain/index.ts";
import { recordRun } from "../run-lesson.ts";
import type { Task } from "../task.ts";
import { burstAsMet } from "./single-burst.ts";

/** Ticks that are shown in motion. */
const shown = 20;

/** One tick of the chain from its edge to its stamp, as the engine met it. */
export const motion: Task<"motion"> = async ({ lesson }, { seed, tick }, pace) => {
  const { drive, clock, counter } = lesson;
  const { stepsPerTick } = clock;
  const isDriven = drive !== null && counter.input === "clock";
  const { met, readings } = isDriven
    ? await burstAsMet(lesson, seed, tick * stepsPerTick, (shown + 1) * stepsPerTick, pace)
    : { met: null, readings: await recordRun(lesson, seed, { readings: shown }, pace) };
  const late = new Float64Array(readings.error.length + 1);
  for (let i = 0; i + 1 < late.length; i++) late[i + 1] = late[i]! - readings.error[i]!;
  return { burst: met, late, period: nominalPeriod(lesson), burstsPerTick: stepsPerTick };
};
