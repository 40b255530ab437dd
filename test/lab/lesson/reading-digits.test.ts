import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readingDigits } from "../../../src/lab/index.ts";

describe("readingDigits", () => {
  // Common practice, no published source: a place is kept while its unit is at least the uncertainty.
  it.each([
    [12.3456, 0.02, 4, "12.3", "456", 3],
    [12.3456, 0.1, 4, "12.3", "456", 3],
    [12.3456, 0.11, 4, "12", ".3456", 2],
    [1234.5, 30, 1, "12", "34.5", 2],
    [-0.00031, 0.001, 5, "", "−0.00031", 0],
    [12.3456, 0, 4, "12.3456", "", 6],
    [12.3456, 5000, 4, "", "12.3456", 0],
    [12.3456, Number.NaN, 4, "", "12.3456", 0],
    [7, 0.5, 0, "7", "", 1],
    // Common practice: zeros before the first other digit hold the place and are not significant.
    [0.9972344, 970e-6, 7, "0.997", "2344", 3],
    [1.7e-7, 97e-9, 10, "0.0000001", "700", 1],
  ])("splits %s with uncertainty %s and %s decimals", (value, u, decimals, sure, unsure, count) => {
    expect(readingDigits(value, u, decimals)).toEqual({ sure, unsure, count });
  });

  it("loses no digit, and has more sure ones the smaller the uncertainty", () => {
    const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    const uncertainty = fc.double({ min: 1e-9, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(value, uncertainty, fc.integer({ min: 0, max: 9 }), (x, u, decimals) => {
        const wide = readingDigits(x, u, decimals);
        const narrow = readingDigits(x, u / 10, decimals);
        expect(wide.sure + wide.unsure).toBe(x.toFixed(decimals).replace("-", "−"));
        expect(narrow.sure.length).toBeGreaterThanOrEqual(wide.sure.length);
      }),
      { seed: 7 },
    );
  });
});
