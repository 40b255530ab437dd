import { pow } from "../../../numeric/index.ts";
import {
  fewestReadings,
  halfWidth,
  type RunLength,
  readingsIn,
  runLength,
  type Strategy,
  strategies,
  timeBaseBound,
} from "../../../planning/index.ts";
import type { Scenario } from "../../../scenario/index.ts";
import { wayInWords } from "../../../view/words/index.ts";
import { withGate } from "../../lesson/lesson-scenario.ts";
import type { PlannedWay } from "../../protocol.ts";
import type { Bench, Task } from "../task.ts";

/** Run lengths in the picture: from a minute to thirty years. */
const [shortest, longest] = [60, 1e9];
const perDecade = 5;

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
  const ways: PlannedWay[] = [];
  for (const strategy of strategies(scenario, bench.delay(scenario))) {
    await pace.breathe(ways.length / 8);
    const found: RunLength = runLength(scenario, strategy, within);
    ways.push({
      method: strategy.method,
      description: wayInWords(strategy),
      estimator: strategy.estimator,
      length: found.length,
      readings: found.readings,
      limitedBy: found.limitedBy,
      looksAtClock: strategy.counter.input === scenario.counter.input,
      ...widthsOf(scenario, strategy),
    });
  }
  return { ways, bound: timeBaseBound(scenario).bound };
};

function widthsOf(scenario: Scenario, strategy: Strategy) {
  const steps = Math.round(Math.log10(longest / shortest) * perDecade);
  const lengths = Float64Array.from(
    { length: steps + 1 },
    (_, i) => shortest * pow(longest / shortest, i / steps),
  );
  const widths = lengths.map((length) => {
    const readings = readingsIn(strategy.timing, length);
    const isEnough = strategy.obstacle === null && readings >= fewestReadings(strategy.timing);
    return isEnough ? halfWidth(scenario, strategy, readings, 0.95) : Number.NaN;
  });
  return { lengths, widths };
}
