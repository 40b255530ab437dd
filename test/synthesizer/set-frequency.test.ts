import { describe, expect, it } from "vitest";
import { setFrequency } from "../../src/stages/synthesizer/index.ts";

describe("setFrequency", () => {
  it("takes the nearest multiple of the setting step", () => {
    expect(setFrequency(5.3, 0.5)).toBe(5.5);
    expect(setFrequency(5.01368954675, 1e-7)).toBe(5.0136895);
    expect(setFrequency(60, 7)).toBe(63);
  });

  it("takes any rate where the step is 0", () => {
    expect(setFrequency(5.01368954675, 0)).toBe(5.01368954675);
  });

  it("throws RangeError where nothing is left", () => {
    expect(() => setFrequency(0.2, 1)).toThrow(/at least half the setting step 1 Hz, got 0.2/);
    expect(() => setFrequency(-1, 1)).toThrow(/requestedHz must be > 0 Hz/);
    expect(() => setFrequency(1, -1)).toThrow(/settingStepHz must be >= 0 Hz/);
  });
});
