import { describe, expect, it } from "vitest";
import { parseDuration } from "../../src/planning/index.ts";

// Expected values: the definitions of minute, hour and day in the SI brochure (table 8); the Julian year of
// 365.25 days = 31 557 600 s of the IAU (style manual, 1989).
describe("parseDuration", () => {
  it.each([
    ["20000", 20000],
    ["2e4", 20000],
    [" .5 ", 0.5],
    ["6h", 21600],
    ["30d", 2592000],
    ["6 h 40 min", 24000],
    ["1.5 weeks", 907200],
    ["1 year", 31557600],
    ["250 ms", 0.25],
    ["10 µs", 1e-5],
  ])("reads %j as %d s", (text, seconds) => {
    expect(parseDuration(text)).toBeCloseTo(seconds, 12);
  });

  it.each(["", "day", "-3d", "0", "0 h", "3 fortnights", "6h40", "1e999", "NaN", "3 d d", "3;"])(
    "refuses %j",
    (text) => {
      expect(() => parseDuration(text)).toThrow(RangeError);
    },
  );
});
