import { describe, expect, it } from "vitest";
import { periodicInterpolation } from "../../src/stages/receiver/index.ts";

describe("periodicInterpolation", () => {
  const f = (x: number) =>
    2 +
    Math.cos(2 * Math.PI * x) -
    0.4 * Math.sin(6 * Math.PI * x) +
    0.1 * Math.cos(4 * Math.PI * x);
  const values = Float64Array.from({ length: 8 }, (_, k) => f(k / 8));

  it("is exact for fewer harmonics than half the nodes", () => {
    for (const x of [0, 0.01, 0.3, 0.5, 0.77, 0.999, 3.21]) {
      expect(periodicInterpolation(values, x)).toBeCloseTo(f(x), 12);
    }
  });

  it("of one value is that value", () => {
    expect(periodicInterpolation(Float64Array.of(3), 0.37)).toBe(3);
  });
});
