import { describe, expect, it } from "vitest";
import { markerPath } from "../../src/view/chart/index.ts";

describe("markerPath", () => {
  it("begins at its centre, so that many can share one path", () => {
    for (const shape of ["circle", "square", "diamond", "triangle", "cross"] as const) {
      const d = markerPath(shape, 10.126, 20, 3.2);
      expect(d).toMatch(/^M10\.13 20m/);
      // SVG 2 path grammar: commands and numbers with at most two decimals as printed here.
      expect(d).toMatch(/^([MmLlHhVvAaZz]|-?\d+(\.\d{1,2})?|\s)+$/);
    }
  });
});
