import { Deviations, deviationRun, verifyJob } from "../../../src/cli/index.ts";
import {
  lengthOf,
  type Method,
  type Prediction,
  predict,
  strategies,
} from "../../../src/planning/index.ts";
import type { VerifyCase } from "./verify-cases.ts";

/** Every case by every way of measuring that is there: name, way, case. */
export const verifyTable = (cases: readonly VerifyCase[]) =>
  cases.flatMap((one) =>
    strategies(one.scenario)
      .filter(({ method, obstacle }) => one.readings[method] !== undefined && obstacle === null)
      .map(({ method }) => [one.name, method, one] as const),
  );

/** What theory says, and what simulated runs, with seeds of their own, deviate by. */
export function simulatedDeviations(
  { scenario, readings }: VerifyCase,
  method: Method,
  runs: number,
): { readonly prediction: Prediction; readonly deviations: Deviations } {
  const strategy = strategies(scenario).find((candidate) => candidate.method === method)!;
  const length = lengthOf(strategy.timing, readings[method]!) * (1 + 1e-9);
  const prediction = predict(scenario, strategy, length);
  const deviations = new Deviations();
  for (let run = 0; run < runs; run++) {
    const seed = `verify-${run}`;
    deviations.add(deviationRun(verifyJob(scenario, strategy, prediction.readings, seed)));
  }
  return { prediction, deviations };
}
