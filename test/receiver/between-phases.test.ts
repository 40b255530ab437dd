import { describe, expect, it } from "vitest";
import { betweenPhases } from "../../src/stages/receiver/index.ts";

describe("betweenPhases", () => {
  it("follows a bump that moves on with the phase", () => {
    // Exact: weights of a Gaussian bump about knot 40 + 8·phase; it comes back a period (8 knots) on.
    const bump = (phase: number) =>
      Float64Array.from({ length: 88 }, (_, i) => Math.exp(-(((i - 40 - 8 * phase) / 6) ** 2)));
    const phases = Array.from({ length: 16 }, (_, k) => bump(k / 16));
    const all = betweenPhases(phases, 8, 4);
    expect(all).toHaveLength(64);
    for (const [k, law] of all.entries()) {
      const exact = bump(k / 64);
      // Cubic interpolation: 3/128·h⁴·f'''' with f'''' at most 12·(8/6)⁴ in units of the phase.
      for (const [i, value] of law.entries())
        expect(Math.abs(value - exact[i]!)).toBeLessThan(2e-5);
    }
  });

  it("keeps the phases computed and gives nothing below zero", () => {
    const spike = new Float64Array(24);
    spike[12] = 1;
    const nothing = new Float64Array(24);
    const all = betweenPhases([spike, nothing, nothing, nothing], 8, 2);
    expect(all[0]).toEqual(spike);
    for (const law of all) expect(Math.min(...law)).toBeGreaterThanOrEqual(0);
  });
});
