import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { devianceTerm } from "../../src/numeric/index.ts";

describe("devianceTerm", () => {
  it("is 0 where both agree and μ for an empty observation", () => {
    expect(devianceTerm(7.5, 7.5)).toBe(0);
    expect(devianceTerm(0, 3)).toBe(3);
  });

  it("is d²/(2μ)·(1 − d/(3μ) + …) for x = μ + d close to μ, where the direct form is lost", () => {
    const mu = 1e10;
    for (const d of [1, -5, 1000]) {
      const series = ((d * d) / (2 * mu)) * (1 - d / (3 * mu) + (d * d) / (6 * mu * mu));
      expect(Math.abs(devianceTerm(mu + d, mu) / series - 1)).toBeLessThan(1e-15 * 4);
    }
  });

  it("agrees with its direct form where that keeps its digits, on both sides of the change", () => {
    const positive = fc.double({ min: 0.1, max: 100, noNaN: true });
    fc.assert(
      fc.property(positive, positive, (x, mu) => {
        const direct = x * Math.log(x / mu) + mu - x;
        expect(Math.abs(devianceTerm(x, mu) - direct)).toBeLessThan(1e-15 * (x + mu) * 4);
      }),
      { seed: 12, numRuns: 500 },
    );
  });
});
