import { describe, expect, it } from "vitest";
import { StepCache } from "../../src/noise/index.ts";

describe("StepCache", () => {
  it("computes what belongs to a step once", () => {
    const made: number[] = [];
    const cache = new StepCache((dt) => {
      made.push(dt);
      return { dt };
    });
    const first = cache.at(0.2);
    cache.at(0.4);
    expect(cache.at(0.2)).toBe(first);
    expect(cache.at(0.4).dt).toBe(0.4);
    expect(made).toEqual([0.2, 0.4]);
  });

  it("stays within its memory and right when every step is new", () => {
    let made = 0;
    const cache = new StepCache((dt) => {
      made += 1;
      return dt;
    });
    for (let i = 1; i <= 1000; i++) {
      expect(cache.at(i)).toBe(i);
    }
    expect(cache.at(1000)).toBe(1000);
    expect(made).toBe(1000);
    // The first was dropped long ago and is made again.
    expect(cache.at(1)).toBe(1);
    expect(made).toBe(1001);
  });
});
