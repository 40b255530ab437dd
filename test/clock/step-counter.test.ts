import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { StepCounter } from "../../src/stages/clock/index.ts";

describe("StepCounter", () => {
  it("loses no step: ticks·n + steps is what went in", () => {
    const moves = fc.array(fc.integer({ min: 0, max: 20 }), { maxLength: 50 });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 7 }), moves, (perTick, steps) => {
        const counter = new StepCounter(perTick);
        let ticks = 0;
        for (const n of steps) ticks += counter.advance(n);
        const total = steps.reduce((a, b) => a + b, 0);
        expect(counter.ticks).toBe(ticks);
        expect(counter.ticks * perTick + counter.steps).toBe(total);
        expect(counter.missing).toBe(perTick - (total % perTick));
      }),
      { seed: 11 },
    );
  });

  it("makes up for steps that were taken from it before it ticks", () => {
    const counter = new StepCounter(4);
    counter.lose();
    expect(counter.advance(4)).toBe(0);
    expect(counter.advance(1)).toBe(1);
  });

  it("forgets steps under way when another tick comes", () => {
    const counter = new StepCounter(5);
    counter.advance(3);
    counter.tickAndClear(1);
    expect([counter.ticks, counter.steps]).toEqual([1, 0]);
  });

  it.each([0, 1.5, -2])("throws RangeError for %s steps a tick", (steps) => {
    expect(() => new StepCounter(steps)).toThrow(RangeError);
  });
});
