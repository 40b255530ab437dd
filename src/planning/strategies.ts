import type { Scenario } from "../scenario/index.ts";
import type { GateSetting } from "../stages/counter/index.ts";
import { wandering } from "../stages/oscillator/index.ts";
import type { DelayByPhase } from "../stages/receiver/index.ts";
import type { Input } from "./chain-noise.ts";
import { delayByPhase } from "./detection-delay.ts";
import { estimateVariance } from "./estimate-variance.ts";
import { type Estimator, selectionExcess, weightingOf } from "./estimator.ts";
import { type Measurement, measurements } from "./measurement.ts";
import { fewestReadings, lengthOf, readingsIn } from "./readings-in.ts";

/** The ways of measuring, by name. */
export type Method =
  | "single_periods"
  | "gates_with_dead_time"
  | "back_to_back_mean"
  | "back_to_back_line"
  | "stamped_ticks_line"
  | "synthesizer_output"
  | "reference_direct"
  | "longest_gate";

/** One way of measuring a scenario's rate, with all that a prediction needs. */
export interface Strategy extends Measurement {
  readonly method: Method;
  readonly estimator: Estimator;
  /** Why the counter cannot do it, or null where it can. */
  readonly obstacle: string | null;
}

/**
 * The ways in which a scenario's rate can be measured with its counter.
 *
 * Single periods and gates with dead time take the counter's dead time, or half a period where it has none:
 * they stand for an instrument that must rearm. A longer gate is there where the counter has one; a
 * synthesizer's output where there is a synthesizer.
 *
 * @param scenario - the scenario
 * @param delay - detection delay by phase of the tone; null where the chain has no
 *   receiver; by theory where left out
 * @returns ways of measuring, in the order of a table
 * @throws RangeError as `chainNoise`
 */
export function strategies(
  scenario: Scenario,
  delay: DelayByPhase | null = delayByPhase(scenario),
): readonly Strategy[] {
  const { counter } = scenario;
  const { technique, gateMax } = counter;
  const clock = wayOfMeasuring(scenario, "clock", delay);
  const gate = counter.gate === "single" ? Math.max(clock.period, 1) : counter.gate;
  const deadTime = counter.deadTime > 0 ? counter.deadTime : clock.period / 2;
  // A time-interval counter times periods as a reciprocal one does.
  const timing = technique === "direct" ? "direct" : "reciprocal";
  const noPeriods =
    technique === "direct" ? "a direct counter counts edges and times no single period" : null;

  const list = [
    clock.way(
      "single_periods",
      "mean_of_readings",
      {
        technique: timing,
        gate: "single",
        deadTime,
      },
      noPeriods,
    ),
    clock.way("gates_with_dead_time", "mean_of_readings", {
      technique: timing,
      gate,
      deadTime,
    }),
    clock.way("back_to_back_mean", "mean_of_readings", {
      technique,
      gate,
      deadTime: 0,
    }),
    clock.way("back_to_back_line", "line_fit", {
      technique,
      gate,
      deadTime: 0,
    }),
    clock.way(
      "stamped_ticks_line",
      "line_fit",
      {
        technique,
        gate: "single",
        deadTime: 0,
      },
      noPeriods,
    ),
  ];
  const elsewhere = { technique, gate, deadTime: 0 } as const;
  if (scenario.synthesizer !== null) {
    const input = wayOfMeasuring(scenario, "synthesizer", delay);
    list.push(input.way("synthesizer_output", "line_fit", elsewhere));
  }
  const input = wayOfMeasuring(scenario, "reference", delay);
  list.push(input.way("reference_direct", "line_fit", elsewhere));
  if (gateMax !== null && gateMax > gate) {
    const isGapless = counter.deadTime === 0;
    list.push(
      clock.way("longest_gate", isGapless ? "line_fit" : "mean_of_readings", {
        technique,
        gate: gateMax,
        deadTime: counter.deadTime,
      }),
    );
  }
  return list;
}

/** Makes strategies that look at one input. */
function wayOfMeasuring(scenario: Scenario, input: Input, delay: DelayByPhase | null) {
  const { period, measure } = measurements(scenario, input, delay);
  const way = (
    method: Method,
    estimator: Estimator,
    setting: GateSetting,
    obstacle: string | null = null,
  ): Strategy => ({ ...measure(setting), method, estimator, obstacle });
  return { period, way };
}

/**
 * The standard uncertainty of the estimate from K readings: the rms of estimate less rate over the run.
 *
 * @param strategy - the way of measuring
 * @param readings - K; integer >= the fewest that give a rate
 * @param isBound - the bound that no longer run exceeds (see `estimateVariance`)
 * @returns u; dimensionless
 */
export function standardUncertainty(strategy: Strategy, readings: number, isBound = false): number {
  const { lines, rest } = variances(strategy);
  return Math.sqrt(Math.max(0, rest(readings) + lines(readings, isBound)));
}

/**
 * The variance of the estimate from K readings, in two parts: what lines (spurs, the beat of a tone) add, which
 * rises and falls with K and is cheap to tell, and all else, which changes evenly.
 *
 * @param strategy - the way of measuring
 * @returns both as functions of K; dimensionless
 */
export function variances(strategy: Strategy) {
  const { estimator, terms, jitter } = strategy;
  const lineTerms = terms.filter(({ shape }) => shape.type === "lines");
  const otherTerms = terms.filter(({ shape }) => shape.type !== "lines");
  const timingOf = (readings: number) => strategy.timingOver(lengthOf(strategy.timing, readings));
  return {
    lines(readings: number, isBound = false): number {
      const weighting = weightingOf(timingOf(readings), estimator, readings);
      let variance = 0;
      for (const { shape } of lineTerms) variance += estimateVariance(weighting, shape, isBound);
      return variance;
    },
    rest(readings: number): number {
      const timing = timingOf(readings);
      const weighting = weightingOf(timing, estimator, readings);
      let variance = selectionExcess(timing, estimator, readings, jitter);
      for (const { shape } of otherTerms) variance += estimateVariance(weighting, shape);
      return variance;
    },
  };
}

/**
 * How far the reference's own rate over a run of this length may stray from that over the next one: its Allan
 * deviation, by its frequency noise.
 *
 * @param scenario - the scenario
 * @param length - s, > 0
 * @returns dimensionless; 0 where the counter runs on the reference and cannot see it
 */
export function sourceDeviation(scenario: Scenario, length: number): number {
  if (scenario.counter.timebase === "reference") return 0;
  return Math.hypot(...wandering(scenario.reference.noise, length).map((each) => each.deviation));
}

/** What a run of a given length gives. */
export interface Prediction {
  readonly readings: number;
  /** Rms of estimate less rate over the run; dimensionless. NaN where no reading is complete. */
  readonly standardUncertainty: number;
  /** Allan deviation of the source at the run's length; dimensionless. */
  readonly sourceDeviation: number;
}

/**
 * The accuracy that a run of a given length gives.
 *
 * @param scenario - the scenario
 * @param strategy - one of its ways of measuring
 * @param length - of the run; s, > 0
 * @returns readings and uncertainties; NaN where the run is too short for a rate
 */
export function predict(scenario: Scenario, strategy: Strategy, length: number): Prediction {
  const readings = readingsIn(strategy.timing, length);
  const isEnough = readings >= fewestReadings(strategy.timing);
  return {
    readings,
    standardUncertainty: isEnough ? standardUncertainty(strategy, readings) : Number.NaN,
    sourceDeviation: sourceDeviation(scenario, lengthOf(strategy.timing, Math.max(1, readings))),
  };
}
