import { describe, expect, it } from "vitest";
import { complaintsAbout, sample, sampleWith, warningsWith } from "./sample.ts";

describe("senseOfSynthesizer", () => {
  it("is content with a setting within one step of what the clock needs", () => {
    expect(
      warningsWith("clock.tick_hz=1.00273790935", "synthesizer.output_hz=5.01368954675"),
    ).toEqual([]);
    expect(warningsWith("synthesizer.output_hz=5.00000009")).toEqual([]);
  });

  it.each([
    // 1e-5 of a day of 86400 s is 0.864 s.
    ["5.00005", "gain 0.864 s a day"],
    ["4.99995", "lose 0.864 s a day"],
    // A sidereal clock driven at the mean solar rate: 86400 s·(1 − 1/1.00273790935) = 236 s a day.
    ["4.986347843", "lose 236 s a day"],
  ])("says what a setting of %s Hz does to the clock in a day", (hz, amount) => {
    const { warnings } = sampleWith(`synthesizer.output_hz=${hz}`);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatchObject({ code: "setting_mismatch", path: "synthesizer.output_hz" });
    expect(warnings[0]!.message).toContain(amount);
  });

  it("goes by the rate that is set, not the one asked for", () => {
    // Asked for 5.3, set to 5.5 in steps of 0.5: a tenth fast.
    const { warnings } = sampleWith(
      "synthesizer.output_hz=5.51",
      "synthesizer.setting_step_hz=0.5",
    );
    expect(warnings[0]!.message).toContain("gain 8640 s a day");
  });

  it("has nothing to compare with where the synthesizer is measured alone", () => {
    const alone = sample
      .replace(/^drive:[\s\S]*?^counter:/m, "counter:")
      .replace(/^dist[\s\S]*/m, "");
    expect(() =>
      complaintsAbout(alone, ["counter.input=synthesizer", "synthesizer.output_hz=3.3"]),
    ).toThrow("accepted");
  });

  it("refuses a setting step that makes nothing of the rate", () => {
    const [first] = complaintsAbout(sample, ["synthesizer.setting_step_hz=11"]);
    expect(first).toMatchObject({ path: "synthesizer.setting_step_hz" });
    expect(first!.message).toContain("the nearest setting to 5 Hz is 0");
  });

  it("warns of a loop that compares at less than twenty times its noise bandwidth", () => {
    // Gardner: B_L = (ω/2)(ζ + 1/(4ζ)); ω = 2π·1.5, ζ = 0.8: 5.243 Hz, twenty times 104.9 Hz.
    expect(warningsWith("synthesizer.loop.comparison_hz=105")).toEqual([]);
    expect(warningsWith("synthesizer.loop.comparison_hz=104")).toEqual([
      "slow_comparison synthesizer.loop.comparison_hz",
    ]);
  });
});
