import { describe, expect, it } from "vitest";
import { complaintsAbout, sample, sampleWith, warningsWith } from "./sample.ts";

describe("extentFaults", () => {
  it.each([
    ["length_s=1e13", /^must be at most 1000000000000 s in size, got 10000000000000$/],
    ["counter.gate_s=1e-30", /^must be 0 or at least 1e-24 s in size, got 1e-30$/],
    [
      "synthesizer.loop.natural_hz=1e100",
      /^must be at most 1000000000000000 Hz in size, got 1e\+100$/,
    ],
    ["drive.amplitude_v=1e308", /^must be at most 1000000000 V in size, got 1e\+308$/],
    ["reference.noise.white_pm_rms_s=2", /^must be at most 1 s in size, got 2$/],
    ["counter.timebase.noise.h={h0: 2}", /^must be at most 1 in size, got 2$/],
    ["environment.mean_c=-1e7", /^must be at most 1000000 in size, got -10000000$/],
    ["disturbances.0.for_s=1e200", /^must be at most 1000000000000 s in size, got 1e\+200$/],
  ])("refuses a slip of the pen: %s", (set, message) => {
    const [complaint] = complaintsAbout(sample, [set]);
    expect(complaint!.message).toMatch(message);
    expect(complaint!.hint).not.toBe("");
  });

  it("takes 0, the smallest of noises, and what is at the limit", () => {
    expect(warningsWith("reference.noise={white_fm_adev_1s: 5e-324, flicker_fm_adev: 0}")).toEqual(
      [],
    );
    expect(sampleWith("drive.amplitude_v=1e9").scenario.drive?.amplitudeV).toBe(1e9);
  });

  it("leaves seeds alone", () => {
    expect(sampleWith("seed=4503599627370496").scenario.seed).toBe("4503599627370496");
  });
});
