import type { Instant } from "../numeric/index.ts";

/** Something that is to happen at a moment. */
export interface ScheduledEvent {
  readonly whole: number;
  readonly fraction: number;
  /** Events of one moment: the lower priority number comes first. */
  readonly priority: number;
  /** Then the one scheduled first. */
  readonly serial: number;
  readonly action: () => void;
  /** A cancelled event stays in the heap and is passed over when its turn comes. */
  isCancelled: boolean;
}

const comesBefore = (a: ScheduledEvent, b: ScheduledEvent): boolean => {
  if (a.whole !== b.whole) return a.whole < b.whole;
  if (a.fraction !== b.fraction) return a.fraction < b.fraction;
  if (a.priority !== b.priority) return a.priority < b.priority;
  return a.serial < b.serial;
};

/**
 * A binary heap of events in the order (time, priority, serial).
 *
 * The serial number makes events of equal time and priority come out in the order in which they were
 * scheduled, so that a run repeats.
 */
export class EventQueue {
  private readonly heap: ScheduledEvent[] = [];
  private serial = 0;

  /** Puts an action into the queue and returns the event, so that it can be cancelled. */
  push(at: Instant, priority: number, action: () => void): ScheduledEvent {
    const { whole, fraction } = at;
    const event = { whole, fraction, priority, serial: this.serial++, action, isCancelled: false };
    let i = this.heap.push(event) - 1;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (!comesBefore(event, this.heap[parent]!)) break;
      this.heap[i] = this.heap[parent]!;
      i = parent;
    }
    this.heap[i] = event;
    return event;
  }

  /** The next event that was not cancelled, left where it is; undefined when there is none. */
  peek(): ScheduledEvent | undefined {
    while (this.heap[0]?.isCancelled) this.removeFirst();
    return this.heap[0];
  }

  /** Takes the next event out; undefined when there is none. */
  pop(): ScheduledEvent | undefined {
    const first = this.peek();
    if (first) this.removeFirst();
    return first;
  }

  private removeFirst(): void {
    const last = this.heap.pop()!;
    const size = this.heap.length;
    if (size === 0) return;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= size) break;
      if (child + 1 < size && comesBefore(this.heap[child + 1]!, this.heap[child]!)) child++;
      if (!comesBefore(this.heap[child]!, last)) break;
      this.heap[i] = this.heap[child]!;
      i = child;
    }
    this.heap[i] = last;
  }
}
