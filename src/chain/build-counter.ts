import type { NoiseLevels } from "../noise/index.ts";
import { RandomStream } from "../numeric/index.ts";
import type { Scenario } from "../scenario/index.ts";
import type { Counter, ReadingSink } from "../stages/counter/index.ts";
import {
  DirectCounter,
  gateTimes,
  ownTimeBase,
  ReciprocalCounter,
  referenceTimeBase,
  type TimeBase,
  TimeIntervalCounter,
} from "../stages/counter/index.ts";
import type { Oscillator } from "../stages/oscillator/index.ts";
import { rateChangeWithin } from "./rate-change.ts";
import type { SpeedDevices } from "./speed-devices.ts";
import { edgeStray, strayOver } from "./stray.ts";

/** Part of a wait kept for rounding; dimensionless. */
const roundingSlack = 1e-12;

/** What a counter stands in. */
export interface CounterSurroundings {
  /** Nominal period of what it watches; s. */
  readonly period: number;
  /** The reference, which may be its time base. */
  readonly reference: Oscillator;
  /** Seed of the run. */
  readonly seed: string;
  /** Length of the run; s. */
  readonly length: number;
  readonly devices: SpeedDevices;
}

/**
 * Builds the counter of a scenario.
 *
 * @param scenario - the scenario
 * @param surroundings - what it stands in
 * @param sink - takes the readings
 */
export function buildCounter(
  scenario: Scenario,
  { period, reference, seed, length, devices }: CounterSurroundings,
  sink: ReadingSink,
): Counter {
  const { counter } = scenario;
  const stream = new RandomStream(seed, "counter");
  const { shortest: wait, deadTime } = gateTimes(counter, period);
  let timeBase: TimeBase;
  let slack: number;
  if (counter.timebase === "reference") {
    timeBase = referenceTimeBase((t) => reference.rateAt(t));
    const { reference: oscillator, environment } = scenario;
    const change = rateChangeWithin(oscillator, environment, wait + deadTime, length);
    slack = 2 * change + slackOf(oscillator.noise, wait, length);
  } else {
    const own = counter.timebase;
    const ownStream = new RandomStream(seed, "counter/timebase");
    timeBase = ownTimeBase(own, period, ownStream, devices.strides);
    slack = slackOf(own.noise, wait, length);
  }
  switch (counter.technique) {
    case "reciprocal":
      return new ReciprocalCounter(counter, timeBase, period, slack, stream, sink);
    case "direct":
      return new DirectCounter(counter, timeBase, period, slack, stream, sink);
    case "time_interval":
      return new TimeIntervalCounter(counter, timeBase, period, slack, stream, sink);
  }
}

/** How far noise may let the rate of a time base stray over a wait, beyond any doubt; dimensionless. */
function slackOf(noise: NoiseLevels, wait: number, length: number): number {
  return roundingSlack + (strayOver(noise, wait, length) + 2 * edgeStray(noise)) / wait;
}
