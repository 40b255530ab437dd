import { describe, expect, it } from "vitest";
import { normalCdf } from "../../src/numeric/index.ts";

describe("normalCdf", () => {
  it("has the values printed in Abramowitz & Stegun, table 26.1, to ten decimals [from memory]", () => {
    expect(normalCdf(1)).toBeCloseTo(0.8413447461, 10);
    expect(normalCdf(2)).toBeCloseTo(0.9772498681, 10);
    expect(normalCdf(3)).toBeCloseTo(0.998650102, 10);
    expect(normalCdf(-1)).toBeCloseTo(0.1586552539, 10);
  });

  it("is ½ at 0, 0 and 1 at the ends", () => {
    expect([0, -Infinity, Infinity].map(normalCdf)).toEqual([0.5, 0, 1]);
  });

  it("lies between the bounds of the tail φ(z)(1/z − 1/z³) and φ(z)/z (Feller) far out", () => {
    for (const z of [5, 10, 20, 37]) {
      const density = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
      expect(normalCdf(-z)).toBeGreaterThan(density * (1 / z - 1 / z ** 3));
      expect(normalCdf(-z)).toBeLessThan(density / z);
    }
  });
});
