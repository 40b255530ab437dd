import type { Scenario } from "../../../src/scenario/index.ts";
import { type Asked, runChain } from "../../chain/run-chain.ts";

export interface Ensemble {
  readonly mean: number;
  readonly error: number;
}

export const names = [
  "mean",
  "deviation",
  "lag 1",
  "lag 10",
  "fourth moment",
  "ticks",
  "displaced",
];

/** What is compared, of one run. */
function statisticsOf(scenario: Scenario, asked: Asked): number[] {
  const { readings, count, displacedSteps } = runChain(scenario, { ...asked, takes: [] });
  // Time errors differ from reading to reading by what was gained; periods are that already.
  const isInterval = scenario.counter.technique === "time_interval";
  const x = readings.map((reading, i) =>
    isInterval ? reading.timeError - (readings[i - 1]?.timeError ?? 0) : reading.timeError,
  );
  if (isInterval) x.shift();
  const n = x.length;
  const mean = x.reduce((a, b) => a + b, 0) / n;
  const d = x.map((value) => value - mean);
  const moment = (lag: number) =>
    d.slice(lag).reduce((sum, value, i) => sum + value * d[i]!, 0) / (n - lag);
  const variance = moment(0);
  const fourth = d.reduce((sum, value) => sum + value ** 4, 0) / n;
  return [
    mean,
    Math.sqrt(variance),
    moment(1) / variance,
    moment(10) / variance,
    fourth / variance ** 2,
    count,
    displacedSteps,
  ];
}

/** Mean and standard error of the mean of each statistic, over runs with seeds of their own. */
export function ensemble(scenario: Scenario, asked: Asked, runs: number): Ensemble[] {
  const rows = Array.from({ length: runs }, (_, i) =>
    statisticsOf(scenario, { ...asked, seed: `${JSON.stringify(asked)}-${i}` }),
  );
  return names.map((_, k) => {
    const values = rows.map((row) => row[k]!);
    const mean = values.reduce((a, b) => a + b, 0) / runs;
    const variance = values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (runs - 1);
    return { mean, error: Math.sqrt(variance / runs) };
  });
}

/**
 * 4.5 standard errors of a difference, estimated from forty runs each (Student's t of some 80 degrees of
 * freedom): a false alarm in 5e4 comparisons, of some 100. Below that, rounding.
 */
export const allowed = 4.5;
