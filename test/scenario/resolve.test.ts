import { describe, expect, it } from "vitest";
import { parseScenario } from "../../src/scenario/index.ts";
import { demo, sampleWith } from "./sample.ts";

const silent = { whitePmRms: 0, h1: 0, h0: 0, hMinus1: 0, hMinus2: 0, flickerLongest: 1e8 };

describe("resolveScenario", () => {
  it("fills in every default of the smallest scenario", () => {
    const text =
      "{length_s: 10, clock: {tick_hz: 2}, reference: {nominal_hz: 8}, counter: {gate_s: 1}}";
    expect(parseScenario(text, "x").scenario).toEqual({
      title: "untitled",
      seed: null,
      length: 10,
      log: null,
      recording: null,
      environment: { meanC: 25, dailyAmplitudeK: 0, dailyPeak: 0, rampKPerDay: 0 },
      reference: {
        nominalHz: 8,
        fractionalOffset: 0,
        agingPerDay: 0,
        temperature: { linearPerK: 0, parabolicPerK2: 0, turnoverC: 25 },
        noise: { ...silent, bandwidthHz: 4 },
      },
      synthesizer: null,
      drive: null,
      receiver: null,
      clock: { tickHz: 2, stepsPerTick: 1, bounce: null, fallback: null },
      counter: {
        input: "clock",
        technique: "reciprocal",
        gate: 1,
        gateMax: null,
        deadTime: 0,
        holdoff: 0,
        resolution: 0,
        triggerNoise: 0,
        missedEdgeProbability: 0,
        extraEdgeProbability: 0,
        displayDigits: null,
        timebase: {
          fractionalOffset: 0,
          uncertainty: 0,
          noise: { ...silent, bandwidthHz: 5e6 },
        },
      },
      disturbances: [],
    });
  });

  it("fills in the defaults of synthesizer, drive, receiver and fallback", () => {
    const { synthesizer, drive, receiver, clock } = sampleWith().scenario;
    expect(synthesizer).toMatchObject({
      loop: { comparisonHz: 1e5 },
      noise: { ...silent, bandwidthHz: 5e4 },
      phaseDetectorWhite: 0,
    });
    expect(drive).toMatchObject({
      carrierFractionalOffset: 0,
      carrierLock: "free",
      amplitudeNoise: 0,
      dropProbability: 0,
    });
    expect(receiver).toMatchObject({ rectifier: "full", leak: true, extraStepRateHz: 0 });
    expect(clock).toMatchObject({
      stepsPerTick: 5,
      fallback: { fractionalOffset: 0, noise: { ...silent, bandwidthHz: 0.5 } },
    });
  });

  it("takes the size of its offset for the uncertainty of a time base", () => {
    const uncertainty = (...sets: string[]) => {
      const { timebase } = sampleWith(...sets).scenario.counter;
      return timebase === "reference" ? null : timebase.uncertainty;
    };
    expect(uncertainty()).toBe(3e-9);
    expect(uncertainty("counter.timebase.uncertainty=1e-8")).toBe(1e-8);
    expect(uncertainty("counter.timebase=reference")).toBeNull();
  });

  it("starts a time-interval counter every second unless told otherwise", () => {
    const text =
      "{length_s: 10, clock: {tick_hz: 2}, reference: {nominal_hz: 8}, counter: {technique: time_interval}}";
    expect(parseScenario(text, "x").scenario.counter.gate).toBe(1);
    expect(parseScenario(text, "x", ["counter.gate_s=5"]).scenario.counter.gate).toBe(5);
  });

  it.each([
    ["7", "7"],
    ["'007'", "007"],
    ["1.5", "1.5"],
    ["true-north", "true-north"],
  ])("makes a text of the seed %s", (seed, text) => {
    expect(sampleWith(`seed=${seed}`).scenario.seed).toBe(text);
  });

  it("puts disturbances in order of time, equal times as written", () => {
    const { scenario } = sampleWith(
      "disturbances=[{kind: extra_step, at_s: 9}, {kind: missed_step, at_s: 4}, {kind: extra_edge, at_s: 9}]",
    );
    expect(scenario.disturbances.map(({ kind }) => kind)).toEqual([
      "missed_step",
      "extra_step",
      "extra_edge",
    ]);
  });

  it("is frozen through and through", () => {
    const { scenario } = parseScenario(demo("station-dial"), "x");
    const thaw = (value: unknown): boolean =>
      typeof value === "object" &&
      value !== null &&
      (!Object.isFrozen(value) || Object.values(value).some(thaw));
    expect(thaw(scenario)).toBe(false);
  });
});
