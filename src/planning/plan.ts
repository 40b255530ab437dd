import type { Scenario } from "../scenario/index.ts";
import { type RunLength, runLength } from "./run-length.ts";
import { type Prediction, predict, type Strategy, strategies } from "./strategies.ts";

/** How long a run must last by each way of measuring. */
export interface LengthPlan {
  /** Half-width asked for, systematic bound included; dimensionless. */
  readonly within: number;
  readonly confidence: number;
  readonly rows: readonly { readonly strategy: Strategy; readonly result: RunLength }[];
  /** The way that reads the clock itself and takes the shortest run; null where none gets there. */
  readonly shortest: Strategy | null;
}

/**
 * Plans a measurement: how long must it last.
 *
 * @param scenario - the scenario
 * @param within - accuracy asked for; dimensionless, > 0
 * @param confidence - of the interval; 0 < p < 1
 * @returns a row for each way of measuring. The shortest is sought among those that look where the scenario's
 *   counter looks
 * @throws RangeError if within or confidence is outside its range
 */
export function planLengths(scenario: Scenario, within: number, confidence = 0.95): LengthPlan {
  const rows = strategies(scenario).map((strategy) => ({
    strategy,
    result: runLength(scenario, strategy, within, confidence),
  }));
  let shortest: Strategy | null = null;
  let least = Infinity;
  for (const { strategy, result } of rows) {
    const isHere = strategy.counter.input === scenario.counter.input;
    if (isHere && result.reachable && result.length < least) {
      least = result.length;
      shortest = strategy;
    }
  }
  return { within, confidence, rows, shortest };
}

/** What a run of a given length gives by each way of measuring. */
export interface AccuracyPlan {
  readonly length: number;
  readonly rows: readonly { readonly strategy: Strategy; readonly prediction: Prediction }[];
}

/**
 * Plans a measurement the other way round: what accuracy a run of a given length gives.
 *
 * @param scenario - the scenario
 * @param length - of the run; s, > 0
 * @returns a row for each way of measuring that the counter can do
 * @throws RangeError if length is not above 0
 */
export function planAccuracies(scenario: Scenario, length: number): AccuracyPlan {
  if (!(length > 0)) throw new RangeError(`planAccuracies: length must be > 0 s, got ${length}`);
  const rows = strategies(scenario)
    .filter(({ obstacle }) => obstacle === null)
    .map((strategy) => ({ strategy, prediction: predict(scenario, strategy, length) }));
  return { length, rows };
}
