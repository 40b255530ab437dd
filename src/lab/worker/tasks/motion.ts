import { nominalPeriod } from "../../../chain/index.ts";
import { recordRun } from "../run-lesson.ts";
import type { Task } from "../task.ts";
import { burstAsMet } from "./single-burst.ts";

/** Ticks that are shown in motion. */
const shown = 40;

/** One tick of the chain from its edge to its stamp, as the engine met it. */
export const motion: Task<"motion"> = async ({ lesson }, { seed, tick }, pace) => {
  const { error } = await recordRun(lesson, seed, { readings: shown }, pace);
  const late = new Float64Array(shown + 1);
  for (let i = 0; i < shown; i++) late[i + 1] = late[i]! - error[i]!;
  const { drive, clock, counter } = lesson;
  const isDriven = drive !== null && counter.input === "clock";
  const number = tick * clock.stepsPerTick;
  const burst = isDriven ? await burstAsMet(lesson, seed, number, pace) : null;
  return { burst, late, period: nominalPeriod(lesson), burstsPerTick: clock.stepsPerTick };
};
