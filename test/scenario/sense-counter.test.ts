import { describe, expect, it } from "vitest";
import { complaintText } from "../../src/scenario/index.ts";
import { complaintsAbout, sample, warningsWith } from "./sample.ts";

const said = (...sets: string[]) => complaintsAbout(sample, sets).map(complaintText);

describe("senseOfCounter", () => {
  it.each([
    [["counter.gate_s=0.9"], "is shorter than the 1 s from edge to edge of its input"],
    [["counter.gate_s=0.19", "counter.input=synthesizer"], "is shorter than the 0.2 s from edge"],
    [["counter.gate_s=9e-8", "counter.input=reference"], "is shorter than the 1e-7 s from edge"],
    [["counter.gate_s=30000"], "is longer than the run of 20000 s"],
    [["counter.gate_s=50", "length_s=49"], "is longer than the run of 49 s"],
    [["counter.gate_s=50", "counter.gate_max_s=10"], "is longer than gate_max_s, 10 s"],
    [
      ["counter.gate_s=1.5", "counter.technique=time_interval"],
      "must be a whole number of seconds",
    ],
  ])("refuses the gate of %s", (sets, message) => {
    const texts = said(...sets);
    expect(texts).toHaveLength(1);
    expect(texts[0]).toContain(`counter.gate_s: ${message}`);
  });

  it.each([
    ["counter.gate_s=1"],
    ["counter.gate_s=single"],
    ["counter.gate_s=10000"],
    ["counter.gate_max_s=50"],
  ])("is content with %s", (set) => {
    expect(warningsWith(set)).toEqual([]);
  });

  it("refuses a run with more edges than a double counts exactly", () => {
    // 2^53 edges at 10 MHz: 9.007e8 s, 28 years and a half.
    const sets = ["counter.input=reference", "counter.holdoff_s=0", "disturbances=[]"];
    expect(warningsWith("length_s=9.00e8", ...sets)).toEqual([]);
    expect(said("length_s=9.01e8", ...sets)).toEqual([
      "--set length_s=9.01e8: length_s: holds more edges of the reference than can be counted exactly, 9007199254740991; shorten the run, or let the counter look at a slower stage",
    ]);
  });

  it("warns of a run with room for one reading", () => {
    expect(warningsWith("counter.gate_s=10001")).toEqual(["few_readings counter.gate_s"]);
    expect(warningsWith("counter.gate_s=9999", "counter.dead_time_s=3")).toEqual([
      "few_readings counter.gate_s",
    ]);
  });

  it("warns of a dead time that a time-interval counter has no use for", () => {
    expect(warningsWith("counter.technique=time_interval", "counter.dead_time_s=1")).toEqual([
      "no_effect counter.dead_time_s",
    ]);
  });

  it("warns of bounces that the holdoff does not mask, where the counter sees the contact", () => {
    expect(warningsWith("counter.holdoff_s=0.0005")).toEqual(["bounce_counted counter.holdoff_s"]);
    expect(warningsWith("counter.holdoff_s=0.001")).toEqual([]);
    const noDisturbance = "disturbances=[]";
    expect(warningsWith("counter.holdoff_s=0", "counter.input=reference", noDisturbance)).toEqual(
      [],
    );
  });

  it("refuses a contact that bounces until the next tick", () => {
    expect(said("clock.bounce.within_s=1")[0]).toContain(
      "clock.bounce.within_s: is as long as the 1 s from tick to tick",
    );
  });

  it("warns of a holdoff that hides edges", () => {
    expect(warningsWith("counter.holdoff_s=1")).toEqual(["holdoff_hides_edges counter.holdoff_s"]);
  });

  it("warns of a reference measured against itself", () => {
    const sets = ["counter.input=reference", "counter.holdoff_s=0", "disturbances=[]"];
    expect(warningsWith(...sets, "counter.timebase=reference")).toEqual([
      "timebase_is_input counter.timebase",
    ]);
    expect(warningsWith(...sets)).toEqual([]);
    expect(warningsWith("counter.timebase=reference")).toEqual([]);
  });
});
