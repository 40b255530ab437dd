import { describe, expect, it } from "vitest";
import { surenessOf } from "../../src/chain/index.ts";
import { observatory } from "../planning/scenario-of.ts";

describe("surenessOf", () => {
  it("is not sure of a burst that the charge left by the one before may block, noise included", () => {
    const scenario = observatory();
    const drive = scenario.drive!;
    const { noiseV, thresholdV, timeConstant } = scenario.receiver!;
    const isSure = surenessOf(scenario);
    // A charge of all the amplitude, seven deviations up, decays to so many deviations below the threshold.
    const highest = drive.amplitudeV * (1 + 7.2 * drive.amplitudeNoise);
    const periodFor = (deviations: number) =>
      drive.burst + timeConstant * Math.log(highest / (thresholdV - deviations * noiseV));
    expect(isSure(1, periodFor(8))).toBe(true);
    expect(isSure(1, periodFor(6))).toBe(false);
    expect(isSure(1, periodFor(-1))).toBe(false);
    expect(isSure(0.1, periodFor(8))).toBe(false);
  });
});
