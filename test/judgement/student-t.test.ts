import { describe, expect, it } from "vitest";
import { studentWithin } from "../../src/judgement/index.ts";

describe("studentWithin", () => {
  it.each([0.1, 1, 12, 300])("is (2/π)·atan t for one degree of freedom, t = %d", (t) => {
    expect(studentWithin(t, 1)).toBeCloseTo((2 / Math.PI) * Math.atan(t), 12);
  });

  it.each([0.1, 1, 4, 30])("is t/√(2 + t²) for two degrees of freedom, t = %d", (t) => {
    expect(studentWithin(t, 2)).toBeCloseTo(t / Math.sqrt(2 + t * t), 12);
  });

  it("tends to the normal distribution: 0.6826895, 0.9544997, 0.9973002 within 1, 2, 3 σ", () => {
    // Abramowitz & Stegun, Table 26.1.
    for (const dof of [2e6, Number.POSITIVE_INFINITY]) {
      expect(studentWithin(1, dof)).toBeCloseTo(0.6826895, 6);
      expect(studentWithin(2, dof)).toBeCloseTo(0.9544997, 6);
      expect(studentWithin(3, dof)).toBeCloseTo(0.9973002, 6);
    }
  });

  it("never falls as the limit widens, up to certainty", () => {
    for (const dof of [1e6, 2e6, 1e9, Number.POSITIVE_INFINITY]) {
      const within = [1, 10, 1e3, 3e3, 1e5, 1e100].map((t) => studentWithin(t, dof));
      expect(within).toEqual([...within].sort((a, b) => a - b));
      expect(within.at(-1)).toBe(1);
    }
  });

  it("throws RangeError naming what is out of range", () => {
    expect(() => studentWithin(-1, 3)).toThrow(/t must be >= 0/);
    expect(() => studentWithin(1, 0)).toThrow(/dof must be > 0/);
  });
});
