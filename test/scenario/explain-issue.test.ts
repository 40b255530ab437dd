import { describe, expect, it } from "vitest";
import { complaintText } from "../../src/scenario/index.ts";
import { complaintsAbout, placeAt, sample, spoilt } from "./sample.ts";

/** The one complaint about the sample with a piece replaced, without its file. */
function said(piece: string, by: string): { text: string; at: (found: string) => string } {
  const text = spoilt(piece, by);
  const complaints = complaintsAbout(text);
  expect(complaints).toHaveLength(1);
  return {
    text: complaintText(complaints[0]!),
    at: (found) => `x.yaml:${placeAt(text, text.indexOf(found))}`,
  };
}

describe("complaints about a key", () => {
  it.each([
    ["carrier_hz", "carier_hz", "drive.carier_hz: unknown key; did you mean carrier_hz?"],
    ["noise_v", "noise", "receiver.noise: unknown key; did you mean noise_v?"],
    ["after_s", "afters", "receiver.fallback.afters: unknown key; did you mean after_s?"],
    ["time_amplitude_s", "amplitude", "synthesizer.spurs.0.amplitude: unknown key; known here:"],
    ["noise_v: 0.1", "tick_hz: 1", "receiver.tick_hz: unknown key; it belongs in clock"],
    ["fractional_offset", "fractional_ofset", "counter.timebase.fractional_ofset: unknown key"],
    ["kind: missed_step, ", "kind: missed_step, for_s: 3, ", "disturbances.1.for_s: unknown key"],
    ["title: sample", "__proto__: { x: 1 }", "__proto__: unknown key; known here: $schema, title"],
    ["title: sample", "<<: { title: x }", "<<: unknown key"],
  ])("%s written as %s", (piece, by, message) => {
    const complaints = complaintsAbout(spoilt(piece, by)).filter(
      ({ message: text }) => text === "unknown key",
    );
    expect(complaints).toHaveLength(1);
    const key = complaints[0]!.path.split(".").at(-1)!;
    const place = placeAt(sample, sample.indexOf(piece) + by.indexOf(key));
    expect(complaintText(complaints[0]!)).toContain(`x.yaml:${place}: ${message}`);
  });

  it("a mistyped key is not told again as the key that is missing", () => {
    expect(complaintsAbout(spoilt("carrier_hz", "carier_hz"))).toHaveLength(1);
  });

  it("a missing key is told at the heading of its section, with its meaning and unit", () => {
    const { text, at } = said("  nominal_hz: 10e6\n", "");
    expect(text).toBe(
      `${at("reference:")}: reference.nominal_hz: is missing; it is a number: Nominal frequency; Hz`,
    );
  });

  it("a missing key of the whole is told at the first key", () => {
    const { text } = said("length_s: 20000\n", "");
    expect(text).toBe(
      "x.yaml:1:1: length_s: is missing; it is a number: Simulated length of a run; s",
    );
  });

  it("a missing kind of disturbance is told with the kinds there are", () => {
    const { text } = said("kind: missed_step, ", "");
    expect(text).toMatch(/disturbances\.1\.kind: is missing: one of drive_off, drive_rate, /);
  });
});

describe("complaints about a number", () => {
  it.each([
    ["1_000", 'must be a number, got the text "1_000"; write 1000: digits are not grouped'],
    ["10_0.5e3", '"10_0.5e3"; write 100.5e3: digits are not grouped'],
    ["1,5", 'must be a number, got the text "1,5"; write 1.5: the decimal sign is a point'],
    ["10 MHz", '"10 MHz"; write the number alone: its unit is in the name of the key'],
    ["'1e6'", 'must be a number, got the text "1e6"; leave out the quotes'],
    ["much", 'must be a number, got the text "much"'],
    ["yes", 'must be a number, got the text "yes"'],
    ["true", "must be a number, got true"],
    ["[1]", "must be a number, got a list"],
    ["{ a: 1 }", "must be a number, got a section"],
    ["null", "must be a number, got nothing"],
    [".nan", "must be a finite number, got NaN; write one such as 10e6 or 2e-11"],
    [".inf", "must be a finite number, got Infinity; write one such as 10e6 or 2e-11"],
    ["-.inf", "must be a finite number, got -Infinity; write one such as 10e6 or 2e-11"],
    ["1e400", "must be a finite number, got Infinity; write one such as 10e6 or 2e-11"],
    ["0", "must be > 0, got 0"],
    ["-3", "must be > 0, got -3"],
  ])("%s", (value, message) => {
    const { text } = said("10e6", value);
    const place = placeAt(sample, sample.indexOf("10e6"));
    expect(text).toContain(`x.yaml:${place}: reference.nominal_hz: `);
    expect(text.endsWith(message)).toBe(true);
  });
});

describe("complaints about other values", () => {
  it.each([
    ["steps_per_tick: 5", "steps_per_tick: 1.5", "must be a whole number, got 1.5"],
    ["steps_per_tick: 5", "steps_per_tick: 0", "must be >= 1, got 0"],
    ["mean_c: 20", "daily_amplitude_k: -1", "must be >= 0, got -1"],
    ["fractional_offset: -3e-9", "fractional_offset: 3", "must be < 1, got 3"],
    ["fractional_offset: -3e-9", "fractional_offset: -1", "must be > -1, got -1"],
    ["fractional_offset: -3e-9", "uncertainty: x", 'must be a number, got the text "x"'],
    ["gate_s: 50", "gate_s: x", "must be a number of seconds > 0, or the word single, got the"],
    ["gate_s: 50", "gate_s: 0", "must be > 0, got 0"],
    ["gate_s: 50", "technique: recipocal", '"recipocal"; did you mean reciprocal?'],
    ["gate_s: 50", "input: 5", "must be one of clock, synthesizer, reference; got 5"],
    ["gate_s: 50", "display_digits: 40", "must be <= 17, got 40"],
    ["{ fractional_offset: -3e-9 }", "refrence", "must be the word reference, or a section with"],
    ["noise_v: 0.1", "leak: no", 'must be true or false, got the text "no"'],
    ["kind: missed_step", "kind: misedstep", '"misedstep"; did you mean missed_step?'],
    ["title: sample", "title: 5", "must be a text, got 5; put it in quotes"],
    ["seed: a", "seed: ''", "must not be empty"],
    ["seed: a", "seed: 12345678901234567890", "more digits than a number can keep; put the seed"],
    ["mean_c: 20 }", "}\nrecording: all", "must be one of bursts, ticks, lazy; got the text"],
    ["environment: { mean_c: 20 }", "environment:", "must be a section, got nothing; remove"],
  ])("%s as %s", (piece, by, message) => {
    expect(said(piece, by).text).toContain(message);
  });

  it("a long text is cut", () => {
    expect(said("10e6", "w".repeat(500)).text.length).toBeLessThan(140);
  });

  it("the sample itself is accepted", () => {
    expect(() => complaintsAbout(sample)).toThrow("the scenario was accepted");
  });

  it("one noise given twice", () => {
    const { text, at } = said("2e-11 }", "2e-11, h: { h0: 1e-21 } }");
    expect(text).toBe(
      `${at("1e-21")}: reference.noise.h.h0: states the same noise as white_fm_adev_1s; keep one of the two`,
    );
  });
});
