import { pow } from "../../numeric/index.ts";
import type { LengthPlan, Strategy } from "../../planning/index.ts";
import { fewestReadings, halfWidth, lengthOf, readingsIn } from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import type { ChartOptions, SvgNode } from "../chart/index.ts";
import { planChart } from "../chart/index.ts";
import { humanDuration, wayInWords } from "../words/index.ts";

/** Points a decade of run length. */
const pointsPerDecade = 6;
/** Runs that nobody lives to see the end of are not drawn; s. */
const longest = 1e10;

/**
 * Predicted half-width of the interval (dimensionless) against run length (s) for each way of measuring, with the
 * goal.
 *
 * @param scenario - the scenario
 * @param plan - the plan made for it
 * @param look - title, size, unit
 */
export function planPicture(
  scenario: Scenario,
  plan: LengthPlan,
  look: Omit<ChartOptions, "idPrefix">,
): SvgNode {
  const drawn = plan.rows.filter(({ strategy }) => strategy.obstacle === null);
  const reached = drawn.map(({ result }) => result.length).filter((length) => length <= longest);
  const last = Math.min(longest, 10 * Math.max(86_400, ...reached));
  const strategies = drawn.map(({ strategy, result }) => ({
    name: wayInWords(strategy),
    ...curve(scenario, strategy, plan.confidence, last),
    reaches: result.reachable ? result.length : null,
    when: result.reachable ? humanDuration(result.length) : "never",
  }));
  const percent = Number((100 * plan.confidence).toPrecision(4));
  return planChart(
    {
      strategies,
      goal: plan.within,
      quantity: `Half-width of the ${percent} % interval of the rate`,
    },
    { ...look, idPrefix: "plan" },
  );
}

function curve(scenario: Scenario, strategy: Strategy, confidence: number, last: number) {
  const { timing } = strategy;
  const first = lengthOf(timing, fewestReadings(timing));
  const count = Math.max(2, Math.ceil(Math.log10(last / first) * pointsPerDecade) + 1);
  const length = Float64Array.from(
    { length: count },
    (_, i) => first * pow(last / first, i / (count - 1)),
  );
  const uncertainty = length.map((asked) => {
    const readings = Math.max(fewestReadings(timing), readingsIn(timing, asked));
    return halfWidth(scenario, strategy, readings, confidence);
  });
  return { length, uncertainty };
}
