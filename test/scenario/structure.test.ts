import { describe, expect, it } from "vitest";
import { complaintText } from "../../src/scenario/index.ts";
import { complaintsAbout, placeAt, sample, sampleWith, spoilt } from "./sample.ts";

const without = (text: string, key: string) =>
  text.replace(new RegExp(`^${key}:.*\\n(?: .*\\n)*`, "m"), "");
const without3 = without(without(without(sample, "synthesizer"), "drive"), "receiver");
const plain = without(without3, "disturbances");

const said = (text: string, ...sets: string[]) => complaintsAbout(text, sets).map(complaintText);
const at = (text: string, piece: string) => `x.yaml:${placeAt(text, text.indexOf(piece))}`;

describe("structureFaults", () => {
  it.each([
    [
      "receiver",
      "drive: ",
      "drive: needs a receiver: without one nobody hears the bursts; add a receiver section",
    ],
    [
      "drive",
      "receiver:",
      "receiver: needs a drive: without one it hears no bursts; add a drive section",
    ],
    [
      "synthesizer",
      "drive: ",
      "drive: needs a synthesizer: its edges open the bursts; add a synthesizer section",
    ],
  ])("a chain without %s", (section, place, message) => {
    const text = without(sample, section);
    expect(said(text)).toEqual([`${at(text, place)}: ${message}`]);
  });

  it("a synthesizer that drives nothing", () => {
    const text = without(without(without(sample, "drive"), "receiver"), "disturbances");
    expect(said(text)).toEqual([
      `${at(text, "synthesizer:")}: synthesizer: drives nothing: the counter looks at the clock, which has no receiver; add drive and receiver, or set counter.input to synthesizer`,
    ]);
    expect(complaintsAbout(text, ["counter.input=synthesizer", "length_s=9"])).toHaveLength(1);
  });

  it("a counter on a synthesizer that is not there", () => {
    const text = plain.replace("gate_s: 50", "gate_s: 50, input: synthesizer");
    expect(said(text)).toEqual([
      `${at(text, "synthesizer,")}: counter.input: is synthesizer, but the scenario has none; use clock or reference`,
    ]);
  });

  it("a gate that is not given, where the technique needs one", () => {
    const text = spoilt("gate_s: 50, ", "");
    expect(said(text)).toEqual([
      `${at(text, "counter:")}: counter.gate_s: is missing; a number of seconds > 0, or the word single`,
    ]);
    expect(() => complaintsAbout(text, ["counter.technique=time_interval"])).toThrow("accepted");
  });

  it("a clock faster than what it divides", () => {
    const text = plain.replace("10e6", "0.5");
    expect(said(text)).toEqual([
      `${at(text, "0.5")}: reference.nominal_hz: is slower than the 1 Hz of the clock that divides it; raise it, or lower clock.tick_hz`,
    ]);
  });

  it.each([
    ["reference.nominal_hz=0.9", "reference.noise", plain],
    ["synthesizer.loop.comparison_hz=0.9", "synthesizer.noise", sample],
    ["clock.tick_hz=0.9", "receiver.fallback.noise", sample],
    ["counter.timebase.noise.bandwidth_hz=0.45", "counter.timebase.noise", sample],
  ])("flicker PM by Allan deviation in a band that ends too low: %s", (set, path, text) => {
    const [message] = said(text, "clock.tick_hz=0.2", set, `${path}.flicker_pm_adev_1s=1e-9`);
    expect(message).toContain(
      `${path}.flicker_pm_adev_1s: does not fix the noise where its band ends at 0.45 Hz; give h:`,
    );
  });

  it("flicker PM in such a band by its level h1 is taken", () => {
    const { scenario } = sampleWith(
      "receiver.fallback.noise={ h: { h1: 1e-9 }, bandwidth_hz: 0.1 }",
    );
    expect(scenario.clock.fallback?.noise.h1).toBe(1e-9);
  });

  it("a flicker ladder whose longest time is below its shortest", () => {
    // 1/(2π·5 MHz) = 31.8 ns.
    const [text] = said(sample, "reference.noise.flicker_longest_s=3e-8");
    expect(text).toContain(
      "is not above the shortest relaxation time, 3.18e-8 s by the 5000000 Hz",
    );
    expect(sampleWith("reference.noise.flicker_longest_s=4e-8").warnings).toEqual([]);
  });

  it("nothing where the chain is whole, or has no drive at all", () => {
    expect(sampleWith().warnings).toEqual([]);
    expect(() => complaintsAbout(plain)).toThrow("accepted");
  });
});
