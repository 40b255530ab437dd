import { describe, expect, it } from "vitest";
import { complaintsAbout, sample, warningsWith } from "./sample.ts";

describe("senseOfOscillator", () => {
  it.each([
    // 20000 s are 0.2315 days.
    ["reference.aging_per_day=0.0043", []],
    ["reference.aging_per_day=-0.0044", ["large_rate reference.aging_per_day"]],
    // The sample stands 5 K below the turnover temperature.
    ["reference.temperature.linear_per_k=1.9e-4", []],
    ["reference.temperature.linear_per_k=-2.1e-4", ["large_rate reference.temperature"]],
    ["reference.temperature.parabolic_per_k2=-3.4e-8", []],
    ["reference.temperature.parabolic_per_k2=-0.0034", ["large_rate reference.temperature"]],
  ])("takes parts per million for what they are: %s", (set, warnings) => {
    expect(warningsWith(set)).toEqual(warnings);
  });

  it.each([
    ["reference.temperature.parabolic_per_k2=-0.034", "reference.temperature"],
    ["reference.aging_per_day=1.5", "reference.aging_per_day"],
  ])("refuses a rate that leaves nothing of the clock: %s", (set, path) => {
    expect(complaintsAbout(sample, [set])).toMatchObject([{ path }]);
  });

  it("counts daily cycle and ramp of the temperature", () => {
    const set = "reference.temperature.linear_per_k=1.5e-4";
    expect(warningsWith(set)).toEqual([]);
    const warning = ["large_rate reference.temperature"];
    expect(warningsWith(set, "environment.daily_amplitude_k=2")).toEqual(warning);
    expect(warningsWith(set, "environment.ramp_k_per_day=-9")).toEqual(warning);
  });
});
