import { normalQuantile } from "../../../numeric/index.ts";
import { sourceDeviation, strategies, timeBaseBound } from "../../../planning/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { silenceStages } from "../../lesson/silence-stages.ts";
import type { Limit, Tasks } from "../../protocol.ts";
import type { Task } from "../task.ts";
import { temperatureSwing } from "../theory.ts";
import { pictureLengths, plannedScenario, widthsOf } from "./run-lengths.ts";

/** What ever longer runs come to: this clock, the same on its own oscillator, and on one that is ideal. */
export const averaging: Task<"averaging"> = async (bench, _ask, pace) => {
  const clock = plannedScenario(bench);
  const { fallback } = clock.clock;
  const clocks: [of: "clock" | "own" | "ideal", scenario: Scenario][] = [["clock", clock]];
  if (clock.drive !== null && fallback !== null) clocks.push(["own", onItsOwn(clock)]);
  clocks.push(["ideal", ideal(clock)]);
  const courses: Tasks["averaging"]["answer"]["courses"][number][] = [];
  for (const [of, scenario] of clocks) {
    await pace.breathe(courses.length / clocks.length);
    const delay = bench.delay(scenario);
    const line = strategies(scenario, delay).find((way) => way.method === "back_to_back_line")!;
    courses.push({
      of,
      width: widthsOf(scenario, line),
      limits: [...pictureLengths].map((length) => limitOf(scenario, length)),
    });
  }
  return { lengths: pictureLengths, courses };
};

/** What is largest of the width of a run, noise of edges apart. */
function limitOf(scenario: Scenario, length: number): Limit {
  const parts: Readonly<Record<Limit, number>> = {
    timebase: timeBaseBound(scenario).bound,
    oscillator: normalQuantile(0.975) * sourceDeviation(scenario, length),
    temperature: temperatureSwing(scenario, length),
  };
  const names = Object.keys(parts) as Limit[];
  return names.reduce((a, b) => (parts[b] > parts[a] ? b : a));
}

/** The clock cut off its line: its own oscillator is the reference. */
function onItsOwn(scenario: Scenario): Scenario {
  return {
    ...scenario,
    reference: { ...scenario.reference, agingPerDay: 0, noise: scenario.clock.fallback!.noise },
    synthesizer: null,
    drive: null,
    receiver: null,
    clock: { ...scenario.clock, stepsPerTick: 1, fallback: null },
  };
}

/** No wandering, no temperature and no doubt about the time base: noise of edges alone. */
function ideal(scenario: Scenario): Scenario {
  const quiet = silenceStages(scenario, ["reference"]);
  const { reference, counter } = quiet;
  const temperature = { ...reference.temperature, linearPerK: 0, parabolicPerK2: 0 };
  const plain = { ...reference, fractionalOffset: 0, agingPerDay: 0, temperature };
  const { whitePmRms } = scenario.reference.noise;
  const timebase =
    counter.timebase === "reference"
      ? counter.timebase
      : { ...counter.timebase, fractionalOffset: 0, uncertainty: 0 };
  return {
    ...quiet,
    reference: { ...plain, noise: { ...reference.noise, whitePmRms } },
    counter: { ...counter, timebase },
  };
}
