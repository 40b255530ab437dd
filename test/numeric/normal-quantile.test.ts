import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { normalCdf, normalQuantile } from "../../src/numeric/index.ts";
import { worstRelativeError } from "./high-precision.ts";

describe("normalQuantile", () => {
  it("is within 1e-12 of high-precision values", () => {
    expect(worstRelativeError("normalQuantile", normalQuantile)).toBeLessThan(1e-12);
  });

  it("has the coverage factors of the GUM, table G.1 (JCGM 100:2008): 1.645, 1.960, 2.576 [from memory]", () => {
    expect(normalQuantile(0.95)).toBeCloseTo(1.645, 3);
    expect(normalQuantile(0.975)).toBeCloseTo(1.96, 3);
    expect(normalQuantile(0.995)).toBeCloseTo(2.576, 3);
  });

  it("undoes Φ, from 1e-300 upwards", () => {
    const p = fc.oneof(
      fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true }),
      fc.integer({ min: -300, max: -1 }).map((k) => 10 ** k),
    );
    fc.assert(
      fc.property(p, (probability) => {
        const z = normalQuantile(probability);
        const relative = normalCdf(z) / probability - 1;
        // One unit in the last place of z moves Φ by the hazard rate, about |z| + 1, times it.
        expect(Math.abs(relative)).toBeLessThan(1e-15 * (4 + 2 * z * z));
      }),
      { seed: 11, numRuns: 500 },
    );
  });

  it("is 0 at ½, infinite at the ends, and refuses what is no probability", () => {
    expect([0.5, 0, 1].map(normalQuantile)).toEqual([0, -Infinity, Infinity]);
    for (const p of [-1e-9, 1.0001, NaN]) {
      expect(() => normalQuantile(p)).toThrow(RangeError);
    }
  });
});
