import { Instant } from "../numeric/index.ts";
import { EventQueue, type ScheduledEvent } from "./event-queue.ts";

/**
 * A stage that acts again and again and knows itself when.
 *
 * The simulator lets the process with the earliest `next` act, and tells it the horizon: the moment of
 * whatever else comes next. A process may act as often as it likes before its horizon, in one tight loop;
 * the order of events is the same as if each act were an event of its own.
 */
export interface Process {
  /** When it acts next; `whole` is Infinity while it has nothing to do. */
  readonly next: Instant;
  /** Acts at `next`, perhaps further times strictly before `horizon`, and moves `next` on. */
  act(horizon: Instant): void;
}

/** Keeps the time order of events and processes and moves `now`; knows nothing of clocks. */
export class Simulator {
  /** The present. Only the simulator moves it. */
  readonly now = new Instant();
  private readonly queue = new EventQueue();
  private readonly processes: Process[] = [];
  private readonly horizon = new Instant();
  private hasStopped = false;

  /**
   * Schedules an action. Events come before processes of the same moment.
   *
   * @param at - when; must not lie before `now`
   * @param priority - order among events of one moment, lower first
   * @param action - what happens
   * @returns the event; set `isCancelled` to call it off
   * @throws RangeError if `at` lies in the past
   */
  schedule(at: Instant, priority: number, action: () => void): ScheduledEvent {
    if (at.isBefore(this.now)) {
      throw new RangeError(
        `Simulator.schedule: at must not lie before now = ${this.now.toSeconds()} s, got ${at.toSeconds()} s`,
      );
    }
    return this.queue.push(at, priority, action);
  }

  /** Adds a process; of two that act at the same moment the one added first goes first. */
  add(process: Process): void {
    this.processes.push(process);
  }

  /** Makes `run` return after the present event or act, for good. */
  stop(): void {
    this.hasStopped = true;
  }

  /**
   * Handles events and lets processes act, in order of time.
   *
   * @param acts - how many events and acts at most before it returns; run again to go on
   * @returns true when there is nothing left to do or `stop` was called
   */
  run(acts = Number.POSITIVE_INFINITY): boolean {
    for (let done = 0; done < acts; done++) {
      if (this.hasStopped) return true;
      const event = this.queue.peek();
      const actor = this.earliestProcess();
      if (event && (!actor || !precedes(actor.next, event))) {
        this.queue.pop();
        this.now.set(event.whole, event.fraction);
        event.action();
      } else if (actor) {
        this.now.copy(actor.next);
        this.setHorizon(actor, event);
        actor.act(this.horizon);
      } else {
        return true;
      }
    }
    return this.hasStopped;
  }

  private earliestProcess(): Process | undefined {
    let earliest: Process | undefined;
    for (const candidate of this.processes) {
      if (candidate.next.whole === Number.POSITIVE_INFINITY) continue;
      if (!earliest || candidate.next.isBefore(earliest.next)) earliest = candidate;
    }
    return earliest;
  }

  private setHorizon(acting: Process, event: ScheduledEvent | undefined): void {
    this.horizon.setNever();
    if (event) this.horizon.set(event.whole, event.fraction);
    for (const other of this.processes) {
      if (other !== acting && other.next.isBefore(this.horizon)) this.horizon.copy(other.next);
    }
  }
}

const precedes = (at: Instant, event: ScheduledEvent): boolean =>
  at.whole < event.whole || (at.whole === event.whole && at.fraction < event.fraction);
