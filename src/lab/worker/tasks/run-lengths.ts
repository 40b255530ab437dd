import { pow } from "../../../numeric/index.ts";
import {
  fewestReadings,
  halfWidth,
  lengthOf,
  readingsIn,
  runLength,
  type Strategy,
  strategies,
  timeBaseBound,
} from "../../../planning/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { wayInWords } from "../../../view/words/index.ts";
import { withGate } from "../../lesson/lesson-scenario.ts";
import { silenceStages } from "../../lesson/silence-stages.ts";
import type { PlannedWay } from "../../protocol.ts";
import type { Bench, Task } from "../task.ts";
import { temperatureSwing } from "../theory.ts";

/** Run lengths in the picture: from a minute to thirty years. */
const [shortest, longest] = [60, 1e9];
const perDecade = 5;

/** Run lengths of the pictures; s. */
export const pictureLengths = Float64Array.from(
  { length: Math.round(Math.log10(longest / shortest) * perDecade) + 1 },
  (_, i) => shortest * pow(10, i / perDecade),
);

/**
 * The scenario that a plan is made for: with the gate written in it, or ten periods where it has none.
 *
 * @param bench - scenario and lesson
 */
export function plannedScenario({ scenario, lesson }: Bench): Scenario {
  const { gate, deadTime } = scenario.counter;
  return gate === "single"
    ? withGate(lesson, 10, deadTime)
    : { ...lesson, counter: { ...lesson.counter, gate, deadTime } };
}

/** How long a run must last, by each way of measuring. */
export const runLengths: Task<"plan"> = async (bench, { within }, pace) => {
  const scenario = plannedScenario(bench);
  // About the rate of the run itself what the source does in the long run is no error.
  const still = silenceStages(scenario, ["reference"]);
  const ways: PlannedWay[] = [];
  for (const strategy of strategies(scenario, bench.delay(scenario))) {
    await pace.breathe(ways.length / 8);
    const longRun = longRunLength(scenario, strategy, within);
    ways.push({
      method: strategy.method,
      description: wayInWords(strategy),
      looksAtClock: strategy.counter.input === scenario.counter.input,
      overRun: runLength(still, strategy, within).length,
      longRun: longRun.length,
      readings: longRun.readings,
      limitedBy: longRun.limitedBy,
      lengths: pictureLengths,
      widths: widthsOf(scenario, strategy),
    });
  }
  return {
    ways,
    bound: timeBaseBound(scenario).bound,
    swing: temperatureSwing(scenario, shortest),
  };
};

/** With the swing of the temperature taken from what is allowed, until both fit. */
function longRunLength(scenario: Scenario, strategy: Strategy, within: number) {
  let found = runLength(scenario, strategy, within);
  for (let tries = 0; found.limitedBy === null && tries < 400; tries++) {
    const swing = temperatureSwing(scenario, found.length);
    const width = halfWidth(scenario, strategy, found.readings, 0.95, true) + swing;
    if (width <= within || swing === 0) return found;
    const readings = Math.ceil(found.readings * 1.03) + 1;
    const length = lengthOf(strategy.timing, readings);
    if (length > longest) {
      const limitedBy = "the temperature carries the rate away from one season to the next";
      return { length: Number.NaN, readings: Number.NaN, limitedBy };
    }
    found = { ...found, readings, length };
  }
  return found;
}

/**
 * Half-width of the 95 % interval of the long run's rate at the lengths of the pictures.
 *
 * @param scenario - the scenario
 * @param strategy - the way of measuring
 * @returns dimensionless; NaN where there is no reading yet
 */
export function widthsOf(scenario: Scenario, strategy: Strategy): Float64Array {
  return pictureLengths.map((length) => {
    const readings = readingsIn(strategy.timing, length);
    const isEnough = strategy.obstacle === null && readings >= fewestReadings(strategy.timing);
    return isEnough
      ? halfWidth(scenario, strategy, readings, 0.95) + temperatureSwing(scenario, length)
      : Number.NaN;
  });
}
