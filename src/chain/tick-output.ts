import { Edge } from "../kernel/index.ts";
import type { RandomStream } from "../numeric/index.ts";
import { Instant } from "../numeric/index.ts";
import type { ClockParameters } from "../stages/clock/index.ts";
import { drawBounces } from "../stages/clock/index.ts";
import type { Counter } from "../stages/counter/index.ts";
import type { Sinks } from "./sinks.ts";

/**
 * The contact of the clock: hands its ticks, and their bounces, to whoever watches.
 */
export class TickOutput {
  private noted = 0;
  /** Contact closures beyond the ticks themselves. */
  private bounced = 0;
  private readonly dial = new Instant();
  private readonly bounceEdge = new Edge();
  private readonly bounces: Float64Array;
  private readonly never = new Instant().setNever();
  private readonly period: number;
  private readonly clock: ClockParameters;
  private readonly counter: Counter | null;
  private readonly sinks: Sinks;
  private readonly stream: RandomStream;

  /**
   * @param clock - nominal rate and bounce of the contact
   * @param counter - the counter on the contact, or null where it watches another stage
   * @param sinks - who takes the ticks
   * @param stream - random stream of the bounces
   */
  constructor(clock: ClockParameters, counter: Counter | null, sinks: Sinks, stream: RandomStream) {
    this.clock = clock;
    this.period = 1 / clock.tickHz;
    this.counter = counter;
    this.sinks = sinks;
    this.stream = stream;
    this.bounces = new Float64Array(clock.bounce?.count ?? 0);
  }

  /** What befell the chain since the last tick handed on; bits of `mark`. */
  get marks(): number {
    return this.noted;
  }

  /** Something befalls the chain; bits of `mark`. */
  note(marks: number): void {
    this.noted |= marks;
  }

  /** Ticks before this moment nobody looks at. */
  get wake(): Instant {
    return this.counter ? this.counter.wake : this.never;
  }

  /** Contact closures up to a tick, bounces included. */
  countAt(tick: number): number {
    return tick + this.bounced;
  }

  /**
   * Hands a tick on.
   *
   * @param tick - its number since the start of the run, from 1
   * @param edge - the moment and truth of the tick; `count` and `marks` are written here
   */
  emit(tick: number, edge: Edge): void {
    edge.count = this.countAt(tick);
    edge.marks = this.noted;
    this.noted = 0;
    if (this.sinks.tick) {
      this.dial.setCycle(tick, this.period);
      this.sinks.tick(tick, this.dial.minus(edge.instant), edge);
    }
    this.counter?.offer(edge);
    if (this.bounces.length > 0) this.bounce(edge);
  }

  private bounce(edge: Edge): void {
    drawBounces(this.clock.bounce!, this.stream, this.bounces);
    const { bounceEdge } = this;
    bounceEdge.copy(edge);
    bounceEdge.lapse = 0;
    bounceEdge.marks = 0;
    for (const delay of this.bounces) {
      this.bounced++;
      bounceEdge.count++;
      bounceEdge.instant.copy(edge.instant);
      bounceEdge.instant.add(delay);
      this.counter?.offer(bounceEdge);
    }
  }
}
