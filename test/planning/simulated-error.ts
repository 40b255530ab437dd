import { nominalPeriod, Simulation, settleRun } from "../../src/chain/index.ts";
import type { Strategy } from "../../src/planning/index.ts";
import { lengthOf } from "../../src/planning/index.ts";
import type { Scenario } from "../../src/scenario/index.ts";

/**
 * Simulates one run of a strategy with an own time base and gives its estimate of s, less the same estimate on
 * the edges without jitter: mean of the readings, or least squares written out from the definition.
 */
export function simulatedError(
  scenario: Scenario,
  strategy: Strategy,
  readings: number,
  seed: string,
): number {
  const measured = { ...scenario, counter: strategy.counter };
  const { timebase } = measured.counter;
  const offset = timebase === "reference" ? 0 : timebase.fractionalOffset;
  const period = nominalPeriod(measured);
  const request = {
    seed,
    length: 2 * lengthOf(strategy.timing, readings) + 10 * period,
    readings,
    recording: "lazy",
    wantsTicks: false,
    wantsBursts: false,
  } as const;
  const times = [0];
  const errors = [0];
  let time = 0;
  let error = 0;
  new Simulation(measured, settleRun(measured, request).options, {
    reading({ cycles, interval, from, to }) {
      const nominal = cycles * period;
      const truth = to.errorOverRun - from.errorOverRun;
      time += nominal;
      error += nominal * (1 + offset) - interval - truth;
      times.push(time);
      errors.push(error);
    },
  }).run();
  if (strategy.estimator === "mean_of_readings") return error / time;
  const mean = times.reduce((a, b) => a + b) / times.length;
  let product = 0;
  let square = 0;
  times.forEach((t, i) => {
    product += (t - mean) * errors[i]!;
    square += (t - mean) ** 2;
  });
  return product / square;
}
