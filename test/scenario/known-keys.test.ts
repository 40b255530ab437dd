import { describe, expect, it } from "vitest";
import { keyDescription, knownKeys, scenarioSchema } from "../../src/scenario/index.ts";

const value = { disturbances: [{ kind: "drive_off" }, { kind: "unheard" }] };

describe("knownKeys", () => {
  it.each([
    ["clock", ["tick_hz", "bounce"]],
    ["clock.bounce", ["count", "within_s"]],
    ["reference.temperature", ["linear_per_k", "parabolic_per_k2", "turnover_c"]],
    ["reference.noise.h", ["h2", "h1", "h0", "h_minus_1", "h_minus_2"]],
    ["counter.timebase", ["like", "fractional_offset", "uncertainty", "noise"]],
    ["synthesizer.spurs.3", ["frequency_hz", "time_amplitude_s"]],
    ["disturbances.0", ["kind", "at_s", "for_s"]],
    ["disturbances.1", []],
    ["length_s", []],
    ["nowhere.at.all", []],
  ])("of %s", (path, keys) => {
    expect(knownKeys(scenarioSchema, value, path.split("."))).toEqual(keys);
  });
});

describe("keyDescription", () => {
  /** Every key that may hold a number or a word, found by walking the schema. */
  const leaves = (path: string[]): string[][] =>
    knownKeys(scenarioSchema, value, path).flatMap((key) => {
      const below = leaves([...path, key]);
      return below.length > 0 ? below : [[...path, key]];
    });
  const all = leaves([]);

  it("is there for every key", () => {
    expect(all.length).toBeGreaterThan(60);
    expect(all.filter((path) => keyDescription(scenarioSchema, value, path) === "")).toEqual([]);
  });

  it.each([
    ["_hz", /; Hz\b/],
    ["_s", /; s\b/],
    ["_v", /; V\b/],
    ["_c", /; °C/],
    ["_k", /; K\b/],
  ])("names the unit of every key that ends in %s", (suffix, unit) => {
    // White PM's level 2 and friends have units of their own; rates per K are no temperatures.
    const keys = all.filter((path) => path.at(-1)!.endsWith(suffix) && !/_per_/.test(path.at(-1)!));
    expect(keys.length).toBeGreaterThan(0);
    for (const path of keys) {
      // What may also be the word `single` says its unit in a sentence.
      if (path.join(".") === "counter.gate_s") continue;
      expect(keyDescription(scenarioSchema, value, path), path.join(".")).toMatch(unit);
    }
  });
});
