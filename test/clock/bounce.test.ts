import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import { drawBounces } from "../../src/stages/clock/index.ts";

describe("drawBounces", () => {
  it("closes the contact again so many times, in order, uniformly within the time said", () => {
    const stream = new RandomStream("b", "clock/bounce");
    const out = new Float64Array(4);
    let sum = 0;
    const rounds = 5000;
    for (let i = 0; i < rounds; i++) {
      drawBounces({ count: 4, within: 0.01 }, stream, out);
      expect([...out]).toEqual([...out].sort((a, b) => a - b));
      expect(out[0]!).toBeGreaterThanOrEqual(0);
      expect(out[3]!).toBeLessThan(0.01);
      for (const delay of out) sum += delay;
    }
    // Mean of a uniform deviate a half, its standard deviation 1/√12; four of those of the mean.
    const n = 4 * rounds;
    expect(Math.abs(sum / n / 0.01 - 0.5)).toBeLessThan(4 / Math.sqrt(12 * n));
  });
});
