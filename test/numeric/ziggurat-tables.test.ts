import { describe, expect, it } from "vitest";
import {
  zigguratArea,
  zigguratDensity,
  zigguratInside,
  zigguratLayers,
  zigguratTail,
  zigguratWidth,
} from "../../src/numeric/index.ts";

const cells = 2 ** 23;

describe("the ziggurat", () => {
  it("has the layer area of Marsaglia & Tsang 2000: v = 0.00492867323399 for r = 3.6541528853610088", () => {
    expect(zigguratTail).toBe(3.6541528853610088);
    // Printed to twelve digits, of which the last two do not follow from r.
    expect(Math.abs(zigguratArea - 0.00492867323399)).toBeLessThan(2e-14);
    // r·exp(−r²/2) + √(π/2)·erfc(r/√2) with mpmath at 30 digits.
    expect(Math.abs(zigguratArea / 0.004928673233974655 - 1)).toBeLessThan(2e-15);
  });

  it("has layers of one and the same area, which together hold half the Gaussian", () => {
    for (let layer = 1; layer < zigguratLayers; layer++) {
      const height = zigguratDensity[layer + 1]! - zigguratDensity[layer]!;
      expect(Math.abs((height * zigguratWidth[layer]! * cells) / zigguratArea - 1)).toBeLessThan(
        1e-12,
      );
    }
    // The rectangles overhang the curve: their sum is above √(π/2), less by what they cut off.
    expect(256 * zigguratArea).toBeGreaterThan(Math.sqrt(Math.PI / 2));
  });

  it("has edges on the density: its own at the outer edge of every layer", () => {
    for (let layer = 1; layer < zigguratLayers; layer++) {
      const edge = zigguratWidth[layer]! * cells;
      expect(Math.abs(zigguratDensity[layer]! / Math.exp(-edge * edge * 0.5) - 1)).toBeLessThan(
        1e-12,
      );
    }
  });

  it("accepts without a look only cells that lie under the density", () => {
    for (let layer = 1; layer < zigguratLayers; layer++) {
      const edge = zigguratInside[layer]! * zigguratWidth[layer]!;
      expect(Math.exp(-edge * edge * 0.5)).toBeGreaterThanOrEqual(
        zigguratDensity[layer + 1]! * (1 - 1e-14),
      );
    }
    expect(zigguratInside[0]! * zigguratWidth[0]!).toBeLessThanOrEqual(zigguratTail);
  });
});
