import { Edge, mark } from "../kernel/edge.ts";
import { Instant } from "../numeric/instant.ts";
import type { RandomStream } from "../numeric/random-stream.ts";
import type { Counter } from "./counter.ts";
import type { CounterParameters } from "./counter-parameters.ts";
import { EdgeInput } from "./edge-input.ts";
import { Reading, type ReadingSink } from "./reading.ts";
import type { TimeBase } from "./time-base.ts";
import { trigger } from "./time-stamp.ts";

/**
 * A direct counter: it counts the edges that fall into a gate made by its own time base.
 *
 * Back to back, a free-running count is latched at the gate boundaries, so the counts telescope. With dead
 * time the gate opens again `deadTime` later and at a random phase of the signal.
 */
export class DirectCounter implements Counter {
  /** Moment before which no edge can matter to the gate. */
  private readonly gateWake = new Instant();
  private readonly input: EdgeInput;
  private readonly reading = new Reading();
  /** Counter time of the next boundary: of the opening of the gate, or of its end. */
  private readonly boundary = new Instant();
  private readonly limit = new Instant();
  private readonly opened = new Instant();
  private readonly at = new Instant();
  private readonly openEdge = new Edge();
  private openCycles = 0;
  private isOpen = false;
  private readonly gate: number;
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
    this.gate = parameters.gate === "single" ? period : parameters.gate;
    this.timeBase = timeBase;
    this.period = period;
    this.slack = slack;
    this.stream = stream;
    this.sink = sink;
    this.input = new EdgeInput(parameters, stream);
    this.setBoundary(stream.uniform() * period);
  }

  get wake(): Instant {
    return this.input.earlier(this.gateWake);
  }

  plan(at: number, cycles: 1 | -1): void {
    this.input.plan(at, cycles);
  }

  offer(edge: Edge): void {
    this.timeBase.stamp(edge, this.at);
    this.input.accept(edge);
    this.passBoundaries(edge, this.input.cyclesBefore);
  }

  finish(end: Edge): void {
    this.timeBase.stamp(end, this.at);
    this.input.skipTo(end.count);
    this.passBoundaries(end, this.input.cycles);
  }

  /** Latches the count at every boundary up to the present edge, which is not itself counted yet. */
  private passBoundaries(edge: Edge, cycles: number): void {
    while (!this.at.isBefore(this.limit)) {
      if (!this.isOpen) this.open(edge, cycles);
      else this.close(edge, cycles);
    }
    this.gateWake.copy(edge.instant);
    const wait = this.limit.minus(this.at);
    this.gateWake.add(
      Math.max(0, (wait / (1 + this.timeBase.rateAt(edge.instant.whole))) * (1 - this.slack)),
    );
  }

  private open(edge: Edge, cycles: number): void {
    this.isOpen = true;
    this.openCycles = cycles;
    this.openEdge.copy(edge);
    this.input.marks = 0;
    this.opened.copy(this.boundary);
    this.setBoundary(this.gate);
  }

  private close(edge: Edge, cycles: number): void {
    const { reading } = this;
    reading.start.copy(this.opened);
    reading.cycles = cycles - this.openCycles;
    reading.interval = reading.cycles === 0 ? Number.NaN : this.gate;
    reading.timeError = reading.cycles * this.period - reading.interval;
    reading.marks = this.input.marks | (reading.cycles === 0 ? mark.noEdge : 0);
    reading.from.copy(this.openEdge);
    reading.to.copy(edge);
    this.sink(reading);
    reading.index++;
    this.isOpen = false;
    if (this.parameters.deadTime === 0) this.open(edge, cycles);
    else this.setBoundary(this.parameters.deadTime + this.stream.uniform() * this.period);
  }

  /** Sets the next boundary; trigger noise decides at which moment an edge still falls before it. */
  private setBoundary(wait: number): void {
    this.boundary.add(wait);
    this.limit.copy(this.boundary);
    trigger(this.limit, this.parameters.triggerNoise, this.stream);
  }
}
