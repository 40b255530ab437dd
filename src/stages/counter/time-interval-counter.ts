import type { Edge } from "../../kernel/index.ts";
import { Instant } from "../../numeric/index.ts";
import { quantize, trigger } from "./time-stamp.ts";
import { WatchingCounter } from "./watching-counter.ts";

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
export class TimeIntervalCounter extends WatchingCounter {
  private readonly dial = new Instant();
  private second = 0;

  protected look(edge: Edge): void {
    this.stampEdge(edge);
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
      this.give();
      this.input.marks = 0;
      // While it waits for an edge it cannot start again: seconds that pass meanwhile give no reading.
      const { gate: spacing } = this.times;
      this.second += (Math.floor((whole - this.second) / spacing) + 1) * spacing;
    }
    this.sleep(edge, this.second - this.at.whole - this.at.fraction);
  }
}
