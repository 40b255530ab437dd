import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseDuration } from "../../src/planning/index.ts";
import { humanDuration } from "../../src/view/words/index.ts";

describe("humanDuration", () => {
  it.each([
    [24000, "6 h 40 min"],
    [17.6 * 86400, "17.6 days"],
    [148_000 * 365.25 * 86400, "148 000 years"],
    [400, "6 min 40 s"],
    [3600, "60 min"],
    [7200, "2 h"],
    [42.51, "42.5 s"],
    [0.997, "997 ms"],
    [2.5e-6, "2.5 µs"],
    [3.2e-8, "32 ns"],
    [2.34e9 * 31557600, "2.34 billion years"],
    [2.22e-16, "0.222 fs"],
    [1.5e-11, "15 ps"],
    [0, "0 s"],
    [Infinity, "never"],
  ])("says %d s as %j", (seconds, words) => {
    expect(humanDuration(seconds)).toBe(words);
  });

  it("says what parseDuration reads back, within half a percent", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-2, max: 9990 * 31557600, noNaN: true }), (seconds) => {
        expect(Math.abs(parseDuration(humanDuration(seconds)) / seconds - 1)).toBeLessThan(0.0051);
      }),
      { seed: 86400 },
    );
  });

  it("refuses a negative duration", () => {
    expect(() => humanDuration(-1)).toThrow(RangeError);
  });
});
