import { pow } from "../numeric/index.ts";
import type { Scenario } from "../scenario/index.ts";
import { gateTimes } from "../stages/counter/index.ts";
import type { DelayByPhase } from "../stages/receiver/index.ts";
import { type Budget, budgetAt, type ContributionKind } from "./budget.ts";
import { inputPeriod } from "./chain-noise.ts";
import { delayByPhase } from "./detection-delay.ts";
import { measurements } from "./measurement.ts";

/** One contribution as a function of the gate. */
export interface ContributionCurve {
  readonly stage: string;
  readonly cause: string;
  readonly kind: ContributionKind;
  /** Fraction of the period at each gate; 0 where the cause has no part there. */
  readonly fractions: Float64Array;
}

/** A budget at many gates, for a picture. */
export interface BudgetCurve {
  /** Average lengths of a reading, ascending; s. */
  readonly gates: Float64Array;
  readonly rows: readonly ContributionCurve[];
  readonly totalRandomRms: Float64Array;
}

/** Gates to a decade. */
const perDecade = 8;
/** How far below the gate set the shortest is, where the period is shorter still: four decades. */
const mostBelow = 1e4;
/** A cause below this part of the random sum at every gate is not worth a curve. */
const negligible = 1e-9;

/**
 * The size of every contribution against the gate, from a single period to the longest gate.
 *
 * The longest is the counter's own, or ten times the gate set, at least a hundred periods; of an input so fast
 * that a single period tells nothing the shortest is a ten-thousandth of the gate set.
 *
 * @param scenario - the scenario
 * @param delay - detection delay by phase of the tone; null where the chain has no
 *   receiver; by theory where left out
 * @returns one curve a cause; explained rows are left out, since the gate does not change them, and what is
 *   nowhere a billionth of the random sum
 * @throws RangeError as `budget`
 */
export function budgetCurve(
  scenario: Scenario,
  delay: DelayByPhase | null = delayByPhase(scenario),
): BudgetCurve {
  const { counter } = scenario;
  const period = inputPeriod(scenario, counter.input);
  const { shortest: set } = gateTimes(counter, period);
  const longest = counter.gateMax ?? Math.max(100 * period, 10 * set);
  const shortest = Math.max(period, set / mostBelow);
  const decades = Math.log10(longest / shortest);
  const steps = Math.max(1, Math.ceil(decades * perDecade));
  const source = measurements(scenario, counter.input, delay);
  const budgets: Budget[] = [];
  for (let i = 0; i <= steps; i++) {
    const gate = shortest * pow(10, (decades * i) / steps);
    // A little less than so many periods holds just as many, whatever the jitter.
    const held = Math.max(1, Math.round(gate / period)) - 0.5;
    const isStarted = counter.technique === "reciprocal";
    const asked = isStarted ? (held < 1 ? "single" : held * period) : gate;
    const next = budgetAt(scenario, source, asked);
    if (next.gate > (budgets.at(-1)?.gate ?? 0)) budgets.push(next);
  }
  const curves = new Map<string, ContributionCurve>();
  budgets.forEach(({ rows }, i) => {
    for (const { stage, cause, kind, fractionOfPeriodRms } of rows) {
      if (kind === "explained") continue;
      const key = `${kind} ${stage} ${cause}`;
      const curve = curves.get(key) ?? {
        stage,
        cause,
        kind,
        fractions: new Float64Array(budgets.length),
      };
      curve.fractions[i] = fractionOfPeriodRms;
      curves.set(key, curve);
    }
  });
  const totalRandomRms = Float64Array.from(budgets, (each) => each.totalRandomRms);
  const counts = ({ fractions }: ContributionCurve) =>
    fractions.some((fraction, i) => fraction > negligible * totalRandomRms[i]!);
  return {
    gates: Float64Array.from(budgets, ({ gate }) => gate),
    rows: [...curves.values()].filter(counts),
    totalRandomRms,
  };
}
