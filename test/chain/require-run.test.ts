import { describe, expect, it } from "vitest";
import { type RunOptions, RunRecord, Simulation, settleRun } from "../../src/chain/index.ts";
import { parseScenario } from "../../src/scenario/index.ts";

const text =
  "length_s: 50\nclock: {tick_hz: 1}\nreference: {nominal_hz: 10e6}\ncounter: {gate_s: 5}\n";
const { scenario } = parseScenario(text, "inline");
const request = {
  seed: "1",
  length: null,
  readings: null,
  recording: null,
  wantsTicks: false,
  wantsBursts: false,
};
const { options } = settleRun(scenario, request);

describe("a run that could not begin or end", () => {
  it.each([
    ["length", 0],
    ["length", -5],
    ["length", Number.NaN],
    ["length", Number.POSITIVE_INFINITY],
    ["readings", 0],
    ["readings", -1],
    ["readings", 1.5],
    ["readings", Number.NaN],
  ])("is refused before it starts: %s = %d", (key, value) => {
    const why = new RegExp(`: ${key} must be .*, got ${value}`);
    expect(() => settleRun(scenario, { ...request, [key]: value })).toThrow(RangeError);
    expect(() => new Simulation(scenario, { ...options, [key]: value }, {})).toThrow(why);
  });

  it("is refused where nothing ends it, or its mode is none", () => {
    const made = (change: Partial<RunOptions>) => () =>
      new Simulation(scenario, { ...options, ...change }, {});
    expect(made({ endsAtLength: false })).toThrow(/readings must be given/);
    expect(made({ recording: "all" as "ticks" })).toThrow(/one of bursts, ticks, lazy, got all/);
    expect(made({ endsAtLength: false, readings: 3 })).not.toThrow();
  });

  it.each([0, -1, Number.NaN])("makes no progress by %d acts, and is told so", (acts) => {
    expect(() => new Simulation(scenario, options, {}).run(acts)).toThrow(/acts must be >= 1/);
  });

  it.each([0, -2, 3, Number.NaN])("is not kept in a record of %d entries", (most) => {
    expect(() => RunRecord.of(scenario, most)).toThrow(/most must be an even number >= 2/);
  });
});
