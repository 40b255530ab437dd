import { Edge, mark } from "../../kernel/index.ts";
import type { RandomStream } from "../../numeric/index.ts";
import { Instant } from "../../numeric/index.ts";
import type { CounterParameters } from "./counter-parameters.ts";
import type { ReadingSink } from "./reading.ts";
import type { TimeBase } from "./time-base.ts";
import { trigger } from "./time-stamp.ts";
import { WatchingCounter } from "./watching-counter.ts";

/**
 * A direct counter: it counts the edges that fall into a gate made by its own time base.
 *
 * Back to back, a free-running count is latched at the gate boundaries, so the counts telescope. With dead
 * time the gate opens again `deadTime` later and at a random phase of the signal.
 */
export class DirectCounter extends WatchingCounter {
  /** Counter time of the next boundary: of the opening of the gate, or of its end. */
  private readonly boundary = new Instant();
  private readonly limit = new Instant();
  private readonly opened = new Instant();
  private readonly openEdge = new Edge();
  private openCycles = 0;
  private isOpen = false;

  constructor(
    parameters: CounterParameters,
    timeBase: TimeBase,
    period: number,
    slack: number,
    stream: RandomStream,
    sink: ReadingSink,
  ) {
    super(parameters, timeBase, period, slack, stream, sink);
    this.setBoundary(stream.uniform() * period);
  }

  /** The gate is closed by any edge, hidden or not: by the first after its end. */
  override get wake(): Instant {
    if (!this.hidesEdges) return super.wake;
    const { release } = this.input;
    return this.gateWake.isBefore(release) ? this.gateWake : release;
  }

  protected look(edge: Edge): void {
    this.stampEdge(edge);
    this.input.accept(edge);
    this.passBoundaries(edge, this.input.cyclesBefore);
  }

  override finish(end: Edge): void {
    this.stampEdge(end);
    this.input.skipTo(end.count);
    this.passBoundaries(end, this.input.cycles);
  }

  /** Latches the count at every boundary up to the present edge, which is not itself counted yet. */
  private passBoundaries(edge: Edge, cycles: number): void {
    while (!this.at.isBefore(this.limit)) {
      if (!this.isOpen) this.open(edge, cycles);
      else this.close(edge, cycles);
    }
    this.sleep(edge, this.limit.minus(this.at));
  }

  private open(edge: Edge, cycles: number): void {
    this.isOpen = true;
    this.openCycles = cycles;
    this.openEdge.copy(edge);
    this.input.marks = 0;
    this.opened.copy(this.boundary);
    this.setBoundary(this.times.gate);
  }

  private close(edge: Edge, cycles: number): void {
    const { reading } = this;
    reading.start.copy(this.opened);
    reading.cycles = cycles - this.openCycles;
    reading.interval = reading.cycles === 0 ? Number.NaN : this.times.gate;
    reading.timeError = reading.cycles * this.period - reading.interval;
    reading.marks = this.input.marks | (reading.cycles === 0 ? mark.noEdge : 0);
    reading.from.copy(this.openEdge);
    reading.to.copy(edge);
    this.give();
    this.isOpen = false;
    if (this.times.deadTime === 0) this.open(edge, cycles);
    else this.setBoundary(this.times.deadTime + this.stream.uniform() * this.period);
  }

  /** Sets the next boundary; trigger noise decides at which moment an edge still falls before it. */
  private setBoundary(wait: number): void {
    this.boundary.add(wait);
    this.limit.copy(this.boundary);
    trigger(this.limit, this.parameters.triggerNoise, this.stream);
  }
}
