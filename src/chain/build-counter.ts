import type { Counter } from "../counter/counter.ts";
import { DirectCounter } from "../counter/direct-counter.ts";
import type { ReadingSink } from "../counter/reading.ts";
import { ReciprocalCounter } from "../counter/reciprocal-counter.ts";
import { ownTimeBase, referenceTimeBase, type TimeBase } from "../counter/time-base.ts";
import { TimeIntervalCounter } from "../counter/time-interval-counter.ts";
import { RandomStream } from "../numeric/random-stream.ts";
import type { Oscillator } from "../oscillator/oscillator.ts";
import type { Scenario } from "../scenario/scenario.ts";
import { strayOver } from "./stray.ts";

/** Rate that temperature may add within one gate; dimensionless. */
const temperatureSlack = 1e-8;

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
  const wait = counter.gate === "single" ? period : counter.gate;
  let timeBase: TimeBase;
  let slack: number;
  if (counter.timebase === "reference") {
    timeBase = referenceTimeBase((t) => reference.rateAt(t));
    slack = temperatureSlack + strayOver(scenario.reference.noise, wait, length) / wait;
  } else {
    const own = counter.timebase;
    timeBase = ownTimeBase(own, period, new RandomStream(seed, "counter/timebase"));
    slack = strayOver(own.noise, wait, length) / wait;
  }
  switch (counter.technique) {
    case "reciprocal":
      return new ReciprocalCounter(counter, timeBase, slack, stream, sink);
    case "direct":
      return new DirectCounter(counter, timeBase, period, slack, stream, sink);
    case "time_interval":
      return new TimeIntervalCounter(counter, timeBase, period, slack, stream, sink);
  }
}
