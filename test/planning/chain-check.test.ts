import { describe, expect, it } from "vitest";
import { checkChain } from "../../src/planning/index.ts";
import { school, twoKelvinWarm } from "./scenario-of.ts";

describe("checkChain", () => {
  it("counts the digits that the scatter of a reading leaves", () => {
    // Two edges of 1 ms each, in a period of 1 s.
    const { readingRms, digits } = checkChain(school(), []);
    expect(readingRms).toBeCloseTo(Math.SQRT2 * 1e-3, 12);
    expect(digits).toBe(2);
  });

  it("resolves time as finely as the doubles of the largest time error lie (IEEE 754)", () => {
    const resolutionAt = (error: number) => {
      const scenario = school((changed) => {
        // Ageing a a day makes a·T²/2, T in days, times the seconds of a day.
        const days = changed.length / 86400;
        changed.reference.agingPerDay = (2 * error) / (days * changed.length);
      });
      return checkChain(scenario, []).timeResolution;
    };
    expect(resolutionAt(0)).toBe(2 ** -52);
    expect(resolutionAt(1.9)).toBe(2 ** -52);
    expect(resolutionAt(2.1)).toBe(2 ** -51);
    expect(resolutionAt(3.9)).toBe(2 ** -51);
  });

  it("sees the beat that the reference's rate makes, whatever the cause", () => {
    const beatsOf = (fractionalOffset: number, linearPerK: number) => {
      const scenario = twoKelvinWarm(fractionalOffset, linearPerK);
      return checkChain(scenario, []).beats;
    };
    expect(beatsOf(0, 5e-7)).toEqual(beatsOf(1e-6, 0));
    expect(beatsOf(0, 0)).not.toEqual(beatsOf(1e-6, 0));
  });
});
