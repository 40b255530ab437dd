import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { editDistance, nearestKey } from "../../src/scenario/index.ts";

describe("editDistance", () => {
  // The usual examples of the literature: Levenshtein; and of the optimal string alignment distance,
  // which is 3 for ca/abc, where unrestricted Damerau-Levenshtein gives 2.
  it.each([
    ["kitten", "sitting", 3],
    ["saturday", "sunday", 3],
    ["ca", "abc", 3],
    ["ab", "ba", 1],
    ["", "abc", 3],
  ])("of %s and %s is %i", (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
    expect(editDistance(b, a)).toBe(distance);
  });

  it("is zero for equal texts only, and never more than the longer text", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        const distance = editDistance(a, b);
        expect(distance === 0).toBe(a === b);
        expect(distance).toBeLessThanOrEqual(Math.max(a.length, b.length));
        expect(distance).toBeGreaterThanOrEqual(Math.abs(a.length - b.length));
      }),
      { seed: 11 },
    );
  });
});

describe("nearestKey", () => {
  const known = ["carrier_hz", "burst_s", "amplitude_v", "h"];

  it.each([
    ["carier_hz", "carrier_hz"],
    ["carrier", "carrier_hz"],
    ["burst", "burst_s"],
    ["Burst_S", "burst_s"],
    ["amplitdue_v", "amplitude_v"],
  ])("finds for %s the key %s", (key, nearest) => {
    expect(nearestKey(key, known)).toBe(nearest);
  });

  it.each(["x", "gate", "", "z".repeat(100)])("finds nothing for %j", (key) => {
    expect(nearestKey(key, known)).toBeNull();
  });
});
