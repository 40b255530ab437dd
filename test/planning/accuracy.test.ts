import { describe, expect, it } from "vitest";
import { parseAccuracy } from "../../src/planning/index.ts";

describe("parseAccuracy", () => {
  // 1 ppm = 86.4 ms/day = 31.5576 s/year; 1 s/day = 1.157407e-5; 1 s/year = 3.168809e-8: arithmetic on the day
  // of 86 400 s and the Julian year.
  it.each([
    ["1e-9", 1e-9],
    ["0.5ppm", 5e-7],
    ["20 ppb", 2e-8],
    ["0.01%", 1e-4],
    ["86.4 ms/day", 1e-6],
    ["31.5576 s/year", 1e-6],
    ["1 s/day", 1.157407407407407e-5],
    ["1 s / year", 3.168808781402895e-8],
    ["1 min/month", 2.281542322610046e-5],
  ])("reads %j as %d", (text, fraction) => {
    expect(parseAccuracy(text) / fraction).toBeCloseTo(1, 12);
  });

  it.each(["", "0", "-1e-9", "1 s", "1 ms/fortnight", "1 day/", "/day", "1 ppm/day", "1e-9 ppx"])(
    "refuses %j",
    (text) => {
      expect(() => parseAccuracy(text)).toThrow(RangeError);
    },
  );
});
