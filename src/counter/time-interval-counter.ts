import type { Edge } from "../kernel/edge.ts";
import { Instant } from "../numeric/instant.ts";
import type { RandomStream } from "../numeric/random-stream.ts";
import type { Counter } from "./counter.ts";
import type { CounterParameters } from "./counter-parameters.ts";
import { EdgeInput } from "./edge-input.ts";
import { Reading, type ReadingSink } from "./reading.ts";
import type { TimeBase } from "./time-base.ts";
import { quantize, trigger } from "./time-stamp.ts";

/**
 * A time-interval counter: from a second of the time base to the next tick.
 *
 * It starts at a whole second, every second with a `single` gate, else every `gate` seconds, and stops at
 * the next edge. With the number of edges counted so far this gives the time error of the dial,
 *
 *   x = n·T − c,   n edges counted, T their nominal period, c the counter time of the stop edge,
 *
 * positive where the clock is fast (ITU-T G.810 gives the opposite sign to a delay).
 */
export class TimeIntervalCounter implements Counter {
  /** Moment before which no edge can matter to the gate. */
  private readonly gateWake = new Instant();
  private readonly input: EdgeInput;
  private readonly reading = new Reading();
  private readonly at = new Instant();
  private readonly dial = new Instant();
  private readonly spacing: number;
  private second = 0;
  private readonly parameters: CounterParameters;
  private readonly timeBase: TimeBase;
  private readonly period: number;
  private readonly stream: RandomStream;
  private readonly sink: ReadingSink;
  private readonly slack: number;

  /**
   * @param period - nominal period of the signal; s
   * @param slack - how far the rate of the time base may stray from its steady part; dimensionless
   */
  constructor(
    parameters: CounterParameters,
    timeBase: TimeBase,
    period: number,
    slack: number,
    stream: RandomStream,
    sink: ReadingSink,
  ) {
    this.parameters = parameters;
    this.spacing = parameters.gate === "single" ? 1 : parameters.gate;
    this.timeBase = timeBase;
    this.period = period;
    this.slack = slack;
    this.stream = stream;
    this.sink = sink;
    this.input = new EdgeInput(parameters, stream);
  }

  get wake(): Instant {
    return this.input.earlier(this.gateWake);
  }

  plan(at: number, cycles: 1 | -1): void {
    this.input.plan(at, cycles);
  }

  offer(edge: Edge): void {
    this.timeBase.stamp(edge, this.at);
    if (!this.input.accept(edge)) return;
    const { reading } = this;
    if (this.at.whole >= this.second) {
      const { whole } = this.at;
      trigger(this.at, this.parameters.triggerNoise, this.stream);
      quantize(this.at, this.parameters.resolution);
      this.dial.setCycle(this.input.cycles, this.period);
      reading.start.set(this.second, 0);
      reading.cycles = this.input.cycles;
      reading.interval = this.at.minus(reading.start);
      reading.timeError = this.dial.minus(this.at);
      reading.marks = this.input.marks;
      reading.to.copy(edge);
      this.sink(reading);
      reading.index++;
      this.input.marks = 0;
      // While it waits for an edge it cannot start again: seconds that pass meanwhile give no reading.
      this.second += (Math.floor((whole - this.second) / this.spacing) + 1) * this.spacing;
    }
    this.aim(edge);
  }

  finish(): void {}

  private aim(edge: Edge): void {
    const wait = this.second - this.at.whole - this.at.fraction;
    this.gateWake.copy(edge.instant);
    this.gateWake.add(
      Math.max(0, (wait / (1 + this.timeBase.rateAt(edge.instant.whole))) * (1 - this.slack)),
    );
  }
}
