import type { Edge } from "../../kernel/index.ts";
import type { RandomStream } from "../../numeric/index.ts";
import { Instant } from "../../numeric/index.ts";
import type { Counter } from "./counter.ts";
import type { CounterParameters } from "./counter-parameters.ts";
import { EdgeInput } from "./edge-input.ts";
import { type GateTimes, gateTimes } from "./gate-times.ts";
import { hidesEdges } from "./hides-edges.ts";
import { Reading, type ReadingSink } from "./reading.ts";
import type { TimeBase } from "./time-base.ts";

/** What every technique has: an input stage, a time base, and a moment before which it need not look. */
export abstract class WatchingCounter implements Counter {
  protected readonly parameters: CounterParameters;
  /** Nominal period of the signal; s. */
  protected readonly period: number;
  protected readonly times: GateTimes;
  protected readonly stream: RandomStream;
  protected readonly input: EdgeInput;
  protected readonly reading = new Reading();
  /** Counter time of the edge last stamped. */
  protected readonly at = new Instant();
  /** Whether the hold-off may hide edges, so that each one after it has to be looked at. */
  protected readonly hidesEdges: boolean;
  /** Nominal time from the edge last stamped to the last that was passed over since; s. */
  private passed = 0;
  private readonly timeBase: TimeBase;
  private readonly slack: number;
  private readonly sink: ReadingSink;
  /** Moment of true time before which no edge can matter to the gate. */
  protected readonly gateWake = new Instant();

  /**
   * @param parameters - how the counter is set
   * @param timeBase - what it takes for time
   * @param period - nominal period of the signal; s
   * @param slack - how far the rate of the time base may stray from its steady part; dimensionless
   * @param stream - its random stream
   * @param sink - takes the readings
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
    this.timeBase = timeBase;
    this.period = period;
    this.times = gateTimes(parameters, period);
    this.slack = slack;
    this.stream = stream;
    this.sink = sink;
    this.hidesEdges = hidesEdges(parameters.holdoff, period);
    this.input = new EdgeInput(parameters, stream, this.hidesEdges);
  }

  offer(edge: Edge): void {
    // With a hold-off, whether an edge counts depends on those before it.
    if (this.parameters.holdoff === 0 && edge.instant.isBefore(this.wake)) {
      this.passed += edge.lapse;
      this.input.marks |= edge.marks;
    } else {
      this.look(edge);
    }
  }

  /** Takes an edge that may matter. */
  protected abstract look(edge: Edge): void;

  finish(_end: Edge): void {}

  get wake(): Instant {
    return this.hidesEdges ? this.input.release : this.input.earlier(this.gateWake);
  }

  plan(at: number, cycles: 1 | -1): void {
    this.input.plan(at, cycles);
  }

  /** Sets `at` to the counter time of an edge. */
  protected stampEdge(edge: Edge): void {
    this.timeBase.stamp(edge, this.passed + edge.lapse, this.at);
    this.passed = 0;
  }

  /** Nothing matters for `wait` of counter time after an edge. */
  protected sleep(edge: Edge, wait: number): void {
    this.gateWake.copy(edge.instant);
    if (wait <= 0) return;
    const trueWait = wait / (1 + this.timeBase.rateAt(edge.instant.whole));
    this.gateWake.add(trueWait * (1 - this.slack));
  }

  /** Hands the reading on. */
  protected give(): void {
    this.sink(this.reading);
    this.reading.index++;
  }
}
