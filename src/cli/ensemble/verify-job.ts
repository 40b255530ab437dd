import { settleRun } from "../../chain/index.ts";
import type { Strategy } from "../../planning/index.ts";
import type { Scenario } from "../../scenario/index.ts";
import type { DeviationJob } from "./deviation-run.ts";
import { slipRateOf } from "./slip-rate.ts";

/**
 * The run that shows what a way of measuring comes to.
 *
 * @param readings - of the run
 * @param seed - of the run
 */
export function verifyJob(
  scenario: Scenario,
  strategy: Strategy,
  readings: number,
  seed: string,
): DeviationJob {
  const measured: Scenario = { ...scenario, counter: strategy.counter, disturbances: [] };
  const { options } = settleRun(measured, {
    seed,
    length: null,
    readings,
    recording: "lazy",
    wantsTicks: false,
    wantsBursts: false,
  });
  return {
    kind: "deviation",
    scenario: measured,
    options,
    estimator: strategy.estimator,
    slipRate: slipRateOf(strategy.systematic),
  };
}
