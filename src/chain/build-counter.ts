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
import { edgeStray, strayOver } from "./stray.ts";

/** Part of a wait kept for rounding; dimensionless. */
const roundingSlack = 1e-12;

/**
 * Builds the counter of a scenario.
 *
 * @param scenario - the scenario
 * @param period - nominal period of what the counter watches; s
 * @param reference - the reference, which may be its time base
 * @param seed - seed of the run
 * @param length - length of the run; s
 * @param sink - takes the readings
 */
export function buildCounter(
  scenario: Scenario,
  period: number,
  reference: Oscillator,
  seed: string,
  length: number,
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
    timeBase = ownTimeBase(own, period, new RandomStream(seed, "counter/timebase"));
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
