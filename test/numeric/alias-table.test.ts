import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AliasTable } from "../../src/numeric/index.ts";

/** Share of each outcome, the deviate going evenly through [0, 1): exact but for one step in each column. */
function shares(weights: readonly number[], steps: number): number[] {
  const table = new AliasTable(Float64Array.from(weights));
  const counts = weights.map(() => 0);
  for (let i = 0; i < steps; i++) counts[table.draw((i + 0.5) / steps)]!++;
  return counts.map((count) => count / steps);
}

describe("AliasTable", () => {
  it("gives each outcome its weight", () => {
    // Exact: the weights themselves, over their sum.
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 1, maxLength: 40 }),
        (weights) => {
          const total = weights.reduce((a, b) => a + b, 0);
          fc.pre(total > 0);
          const steps = 20000;
          // One step may fall on either side of each of the edges.
          const off = (2 * weights.length) / steps;
          for (const [i, share] of shares(weights, steps).entries()) {
            expect(Math.abs(share - weights[i]! / total)).toBeLessThanOrEqual(off);
            if (weights[i] === 0) expect(share).toBe(0);
          }
        },
      ),
      { seed: 1, numRuns: 200 },
    );
  });

  it("gives each outcome its weight where they are alike but for rounding", () => {
    const ulp = 2 ** -52;
    for (const weights of [
      [1 - 1.5 * ulp, 1],
      [1 + ulp, 1 - ulp / 2, 1 + ulp, 1 + ulp],
      [1, 1 + 2 * ulp, 1 - 2 * ulp, 1 + ulp, 1],
    ]) {
      for (const share of shares(weights, 20000)) {
        expect(Math.abs(share - 1 / weights.length)).toBeLessThan(1e-3);
      }
    }
  });

  it("stays within its outcomes at the ends of the deviate", () => {
    const table = new AliasTable(Float64Array.of(1e-300, 3, 1));
    expect(table.draw(0)).toBeGreaterThanOrEqual(0);
    expect(table.draw(1 - 2 ** -32)).toBeLessThanOrEqual(2);
  });

  it.each([[[]], [[0, 0]], [[1, -1]], [[1, Number.NaN]], [[Infinity]]])(
    "refuses the weights %j",
    (weights) => {
      expect(() => new AliasTable(Float64Array.from(weights))).toThrow(RangeError);
    },
  );
});
