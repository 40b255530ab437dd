import { describe, expect, it } from "vitest";
import { noiseName, noiseTypeOf, noiseTypes } from "../../../src/analysis/stability/noise-type.ts";

describe("noiseTypeOf", () => {
  it("names the five of S_y(f) = h_α·f^α from α = 2 to −2 (IEEE Std 1139)", () => {
    expect([2, 1, 0, -1, -2].map(noiseTypeOf)).toEqual(noiseTypes);
  });

  it("takes the nearest, and the outermost beyond", () => {
    expect(noiseTypeOf(0.4)).toBe("white_fm");
    expect(noiseTypeOf(3.6)).toBe("white_pm");
    expect(noiseTypeOf(-9)).toBe("random_walk_fm");
    expect(() => noiseTypeOf(Number.NaN)).toThrow(/alpha must be finite/);
  });
});

describe("noiseName", () => {
  it("says the type in words", () => {
    expect(noiseTypes.map(noiseName)).toEqual([
      "white PM",
      "flicker PM",
      "white FM",
      "flicker FM",
      "random-walk FM",
    ]);
  });
});
