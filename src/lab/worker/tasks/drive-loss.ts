import type { Sinks } from "../../../chain/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { runToEnd, settle } from "../run-lesson.ts";
import type { Task } from "../task.ts";

/** Ticks of the clock before the drive is cut. */
const ticksBefore = 30;

/** A run in which the drive is cut and comes back. */
export const driveLoss: Task<"loss"> = async ({ lesson }, { seed, lasts }, pace) => {
  const { clock } = lesson;
  const period = 1 / clock.tickHz;
  // Cut between two ticks: where exactly makes no difference but to this picture.
  const lostAt = (ticksBefore + 0.3) * period;
  const length = lostAt + lasts + Math.max(ticksBefore * period, 0.4 * lasts);
  const scenario: Scenario = {
    ...lesson,
    counter: { ...lesson.counter, input: "clock" },
    disturbances: [{ kind: "drive_off", at: lostAt, for: lasts }],
  };
  const time: number[] = [];
  const timeError: number[] = [];
  const fallback: { from: number; to: number }[] = [];
  let ticksOfFallback = 0;
  const sinks: Sinks = {
    tick(_tick, error, edge) {
      const at = edge.instant.toSeconds();
      time.push(at);
      timeError.push(error);
      if (!edge.isFallback) return;
      ticksOfFallback++;
      const last = fallback.at(-1);
      if (last === undefined) fallback.push({ from: at, to: at });
      else last.to = at;
    },
  };
  const options = settle(scenario, seed, { length }, sinks);
  const simulation = await runToEnd(scenario, options, sinks, pace);
  return {
    time: Float64Array.from(time),
    timeError: Float64Array.from(timeError),
    fallback,
    ticksOfFallback,
    lostAt,
    isRace: fallback.length > 0 && isRace(lesson, lostAt + lasts, fallback[0]!.from),
    displaced: simulation.displacedSteps / (clock.tickHz * clock.stepsPerTick),
  };
};

/** How near a burst and a tick of the own oscillator must come for chance to decide which is first; in bursts. */
const photoFinish = 0.1;

/** Whether the first good burst and a tick of the own oscillator come so close that chance decides. */
function isRace({ clock }: Scenario, backAt: number, firstOwnTick: number): boolean {
  const period = 1 / clock.tickHz;
  const burst = period / clock.stepsPerTick;
  const firstGood = Math.ceil(backAt / burst) * burst;
  const apart = (firstGood - firstOwnTick) / period;
  return Math.abs(apart - Math.round(apart)) * period < photoFinish * burst;
}
