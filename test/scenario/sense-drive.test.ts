import { describe, expect, it } from "vitest";
import { complaintText } from "../../src/scenario/index.ts";
import { complaintsAbout, placeAt, sample, sampleWith, warningsWith } from "./sample.ts";

const said = (...sets: string[]) => complaintsAbout(sample, sets).map(complaintText);

describe("senseOfDrive", () => {
  it("refuses a burst as long as its period", () => {
    const text = sample.replace("burst_s: 0.06", "burst_s: 0.2");
    const place = placeAt(text, text.indexOf("0.2,"));
    expect(complaintsAbout(text).map(complaintText)).toEqual([
      `x.yaml:${place}: drive.burst_s: is as long as the 0.2 s from burst to burst, or longer; shorten it, or lower synthesizer.output_hz`,
    ]);
    expect(warningsWith("drive.burst_s=0.199", "receiver.time_constant_s=0.0001")).toEqual([]);
  });

  it("goes by the rate that is set, not the one asked for", () => {
    // Asked for 5 Hz, set to 8 Hz in steps of 8 Hz: 0.125 s from burst to burst.
    const sets = ["synthesizer.setting_step_hz=8", "drive.burst_s=0.15"];
    expect(said(...sets)[0]).toContain(
      "drive.burst_s: is as long as the 0.125 s from burst to burst",
    );
  });

  // Steady mean of a full-wave rectified tone of 12 V: 24/π = 7.64 V; of a half-wave one: 3.82 V.
  it.each([
    ["receiver.threshold_v=7.5", []],
    ["receiver.threshold_v=8", ["threshold_marginal receiver.threshold_v"]],
    ["receiver.rectifier=half", ["threshold_marginal receiver.threshold_v"]],
  ])("says when only noise reaches the threshold: %s", (set, warnings) => {
    expect(warningsWith(set, "receiver.noise_v=0.15")).toEqual(warnings);
  });

  it.each([
    ["receiver.threshold_v=8.5"],
    ["drive.amplitude_v=6"],
    ["drive.burst_s=0.005"],
    ["receiver.time_constant_s=0.3"],
    ["receiver.rectifier=half"],
  ])("refuses a threshold that cannot be reached: %s", (set) => {
    const [text] = said(set, "receiver.noise_v=0.01");
    expect(text).toMatch(
      /receiver\.threshold_v: cannot be reached: a burst brings at most [\d.]+ V/,
    );
  });

  it("lets five standard deviations of amplitude count", () => {
    const set = ["receiver.threshold_v=8.5", "receiver.noise_v=0"];
    expect(said(...set, "drive.amplitude_noise=0.02")).toHaveLength(1);
    const marginal = ["threshold_marginal receiver.threshold_v"];
    expect(warningsWith(...set, "drive.amplitude_noise=0.03")).toEqual(marginal);
  });

  it("knows that an integrator without leak goes on rising", () => {
    // (2/π)·12 V·(0.06 s/0.01 s) = 45.8 V.
    expect(warningsWith("receiver.leak=false", "receiver.threshold_v=45")).toEqual([]);
    expect(said("receiver.leak=false", "receiver.threshold_v=48")).toHaveLength(1);
  });

  it("warns of charge that blocks the next burst", () => {
    // Built up to (2·34/π)·(1 − e^(−0.06/0.3))/(1 − e^(−0.2/0.3)) = 8.06 V, of which 0.14 s later
    // 5.05 V are left; with 30 V they would be 4.46 V.
    expect(warningsWith("receiver.time_constant_s=0.3", "drive.amplitude_v=30")).toEqual([]);
    expect(warningsWith("receiver.time_constant_s=0.3", "drive.amplitude_v=34")).toEqual([
      "bursts_blocked receiver.time_constant_s",
    ]);
  });

  it("warns of a tone with fewer than three cycles in a burst", () => {
    expect(warningsWith("drive.carrier_hz=51")).toEqual([]);
    expect(warningsWith("drive.carrier_hz=49")).toEqual(["few_carrier_cycles drive.carrier_hz"]);
  });

  it("cautions above 25 V rms, and leaves the work to licensed people", () => {
    // 35.35 V peak are 25 V rms.
    expect(warningsWith("drive.amplitude_v=35.3")).toEqual([]);
    const { warnings } = sampleWith("drive.amplitude_v=35.5");
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatchObject({ code: "voltage_caution", path: "drive.amplitude_v" });
    expect(warnings[0]!.message).toMatch(/local electrical code .* licensed/);
  });

  it("refuses a fallback that would cut in between two bursts", () => {
    expect(said("receiver.fallback.after_s=0.2")).toEqual([
      "--set receiver.fallback.after_s=0.2: receiver.fallback.after_s: is not longer than the 0.2 s from burst to burst, so the drive would never be heard; raise it to more than the time from burst to burst",
    ]);
  });
});
