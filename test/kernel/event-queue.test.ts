import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EventQueue } from "../../src/kernel/index.ts";
import { Instant } from "../../src/numeric/index.ts";

const at = (whole: number, fraction = 0) => new Instant().set(whole, fraction);

describe("EventQueue", () => {
  it("gives events in the order (time, priority, serial), whatever the order they came in", () => {
    const event = fc.record({
      whole: fc.integer({ min: 0, max: 3 }),
      fraction: fc.constantFrom(0, 0.25, 0.5),
      priority: fc.integer({ min: 0, max: 2 }),
    });
    fc.assert(
      fc.property(fc.array(event, { maxLength: 60 }), (events) => {
        const queue = new EventQueue();
        const out: number[] = [];
        events.forEach((e, i) => {
          queue.push(at(e.whole, e.fraction), e.priority, () => out.push(i));
        });
        for (let e = queue.pop(); e; e = queue.pop()) e.action();
        const sorted = events
          .map((e, i) => ({ ...e, i }))
          .sort(
            (a, b) =>
              a.whole - b.whole || a.fraction - b.fraction || a.priority - b.priority || a.i - b.i,
          )
          .map((e) => e.i);
        expect(out).toEqual(sorted);
      }),
      { seed: 3 },
    );
  });

  it("passes over cancelled events", () => {
    const queue = new EventQueue();
    const first = queue.push(at(1), 0, () => {});
    const second = queue.push(at(2), 0, () => {});
    first.isCancelled = true;
    expect(queue.peek()).toBe(second);
    expect(queue.pop()).toBe(second);
    expect(queue.pop()).toBeUndefined();
  });

  it("keeps apart moments that one double could not", () => {
    const queue = new EventQueue();
    const out: string[] = [];
    queue.push(at(1e9, 2e-12), 0, () => out.push("late"));
    queue.push(at(1e9, 1e-12), 0, () => out.push("early"));
    for (let e = queue.pop(); e; e = queue.pop()) e.action();
    expect(out).toEqual(["early", "late"]);
  });
});
