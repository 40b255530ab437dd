import { Simulation, settleRun } from "../../../chain/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { runToEnd } from "../run-lesson.ts";
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
  const { options } = settleRun(scenario, {
    seed,
    length,
    readings: null,
    recording: null,
    wantsTicks: true,
    wantsBursts: false,
  });
  const time: number[] = [];
  const timeError: number[] = [];
  const fallback: { from: number; to: number }[] = [];
  let ticksOfFallback = 0;
  const simulation = new Simulation(scenario, options, {
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
  });
  await runToEnd(simulation, options, pace);
  return {
    time: Float64Array.from(time),
    timeError: Float64Array.from(timeError),
    fallback,
    ticksOfFallback,
    lostAt,
    displaced: simulation.displacedSteps / (clock.tickHz * clock.stepsPerTick),
    after: clock.fallback?.after ?? null,
  };
};
