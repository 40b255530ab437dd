import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readingDigits } from "../../../src/lab/index.ts";

describe("readingDigits", () => {
  // Common practice, no published source: a place is kept while its unit is at least the uncertainty.
  it.each([
    [12.3456, 0.02, 4, "12.3"],
    [12.3656, 0.1, 4, "12.4"],
    [12.3456, 0.11, 4, "12"],
    [1274.5, 30, 1, "1300"],
    [-0.00031, 0.001, 5, ""],
    [12.3456, 0, 4, "12.3456"],
    [12.3456, 5000, 4, ""],
    [12.3456, Number.NaN, 4, ""],
    [7, 0.5, 0, "7"],
    // Rounded, not cut: 0.9996 to a hundredth is 1.00.
    [0.99964, 0.005, 5, "1.00"],
    [0.9972344, 970e-6, 7, "0.997"],
    [1.7e-7, 97e-9, 10, "0.0000002"],
  ])("rounds %s with uncertainty %s and %s decimals", (value, u, decimals, meant) => {
    expect(readingDigits(value, u, decimals).meant).toBe(meant);
  });

  it("rounds to the nearest of a place that is at least the uncertainty", () => {
    const value = fc.double({ min: -1e4, max: 1e4, noNaN: true });
    const uncertainty = fc.double({ min: 1e-6, max: 1e3, noNaN: true });
    fc.assert(
      fc.property(value, uncertainty, (x, u) => {
        const { meant } = readingDigits(x, u, 9);
        const number = meant === "" ? 0 : Number(meant.replace("−", "-").replace(/\u202f/g, ""));
        const place = 10 ** Math.ceil(Math.log10(u) - 1e-9);
        expect(Math.abs(number - x)).toBeLessThanOrEqual(place / 2 + 1e-9);
      }),
      { seed: 7 },
    );
  });
});
