import { describe, expect, it } from "vitest";
import { termStep } from "../../src/noise/index.ts";
import { linearTransition } from "../../src/numeric/index.ts";

describe("termStep", () => {
  it.each([
    [2, 1.4],
    [1e8, 0.2],
    [0.03, 5],
    [Infinity, 7],
  ])("has the Gaussian of (y, ∫y) as a linear system: T = %s s, dt = %s s", (time, dt) => {
    // x' = y, y' = −y/T + noise; conditioned on y at the end (linearTransition, after Van Loan 1978).
    const { transition, covariance } = linearTransition(
      Float64Array.of(-1 / time, 0, 1, 0),
      Float64Array.of(1, 0, 0, 0),
      2,
      dt,
    );
    const { decay, spread, weight, residual } = termStep(time, dt);
    const near = (got: number, wanted: number) =>
      expect(Math.abs(got / wanted - 1)).toBeLessThan(1e-12);
    expect(decay).toBeCloseTo(transition[0]!, 14);
    near(spread, covariance[0]!);
    near(weight, covariance[1]! / covariance[0]!);
    near(weight * (1 + decay), transition[2]!);
    near(residual + weight * weight * spread, covariance[3]!);
  });

  it("does nothing in no time", () => {
    for (const time of [3, Infinity]) {
      expect(termStep(time, 0)).toEqual({ decay: 1, spread: 0, weight: 0, residual: 0 });
    }
  });
});
