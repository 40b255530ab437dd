import { Edge } from "../../kernel/index.ts";
import { Instant } from "../../numeric/index.ts";
import { quantize, trigger } from "./time-stamp.ts";
import { WatchingCounter } from "./watching-counter.ts";

/**
 * A reciprocal counter: it times whole cycles.
 *
 * A reading lasts from the first edge after the gate opens to the first edge after it has been open for
 * `gate`, and gives the counter time between the two stamps and the cycles in it. Without dead time the
 * stop edge is the start edge of the next reading, with one and the same stamp; else the gate opens again
 * `deadTime` after the stop edge. Which edge is taken follows from when it comes; trigger noise and resolution
 * then spoil its stamp.
 *
 * Source: Rubiola, Rev. Sci. Instrum. 76, 054703 (2005), the plain (Π) reciprocal counter.
 */
export class ReciprocalCounter extends WatchingCounter {
  /** Counter time from which the next start or stop edge is taken. */
  private readonly target = new Instant();
  private readonly stamp = new Instant();
  private readonly startStamp = new Instant();
  private readonly startEdge = new Edge();
  private readonly dial = new Instant();
  private readonly elapsed = new Instant();
  private startCycles = 0;
  private isOpen = false;

  protected look(edge: Edge): void {
    this.stampEdge(edge);
    if (!this.input.accept(edge)) return;
    if (this.at.isBefore(this.target)) return;
    this.stamp.copy(this.at);
    trigger(this.stamp, this.parameters.triggerNoise, this.stream);
    quantize(this.stamp, this.parameters.resolution);
    if (this.isOpen) this.close(edge);
    else this.open(edge);
  }

  private open(edge: Edge): void {
    this.isOpen = true;
    this.startEdge.copy(edge);
    this.startStamp.copy(this.stamp);
    this.startCycles = this.input.cycles;
    this.input.marks = 0;
    this.aim(edge, this.times.gate);
  }

  private close(edge: Edge): void {
    const { reading, stamp, startStamp } = this;
    reading.start.copy(startStamp);
    reading.cycles = this.input.cycles - this.startCycles;
    reading.interval = stamp.minus(startStamp);
    this.elapsed.set(stamp.whole - startStamp.whole, stamp.fraction - startStamp.fraction);
    reading.timeError = this.dial.setCycle(reading.cycles, this.period).minus(this.elapsed);
    reading.marks = this.input.marks;
    reading.from.copy(this.startEdge);
    reading.to.copy(edge);
    this.give();
    if (this.times.deadTime === 0) {
      this.open(edge);
    } else {
      this.isOpen = false;
      this.aim(edge, this.times.deadTime);
    }
  }

  /** Waits for the first edge at least `wait` of counter time after the present one. */
  private aim(edge: Edge, wait: number): void {
    this.target.copy(this.at);
    this.target.add(wait);
    this.sleep(edge, wait);
  }
}
