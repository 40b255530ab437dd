import { describe, expect, it } from "vitest";
import { FoldedGrid } from "../../src/stages/synthesizer/index.ts";

describe("FoldedGrid", () => {
  it("leaves a density that ends below half the rate as it is", () => {
    const grid = new FoldedGrid(1e-3, 2.5, 100);
    const plain = grid.spectrum((f) => (f < 2.5 ? 3 : 0));
    expect(plain.length).toBeGreaterThan(20);
    expect([...plain].every((value) => value === 3)).toBe(true);
  });

  it("folds ∫ S df above half the rate evenly onto what lies below (sampling theorem)", () => {
    const grid = new FoldedGrid(1e-3, 2.5, 1e6);
    // ∫ 1/f² from 2.5 up is 1/2.5; over 2.5 Hz: 0.16. The midpoint rule over log f is good to 0.5 %.
    const folded = grid.spectrum((f) => (f > 2.5 ? 1 / (f * f) : 0));
    expect(Math.abs(folded[0]! / 0.16 - 1)).toBeLessThan(0.01);
    expect(folded[folded.length - 1]).toBe(folded[0]);
  });
});
