import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import type { OscillatorParameters } from "../../src/stages/oscillator/index.ts";
import { Oscillator } from "../../src/stages/oscillator/index.ts";

const environment = { meanC: 20, dailyAmplitudeK: 3, dailyPeak: 0, rampKPerDay: 0 };
const parameters: OscillatorParameters = {
  nominalHz: 10e6,
  fractionalOffset: 2e-8,
  agingPerDay: 1e-10,
  temperature: { linearPerK: 1e-10, parabolicPerK2: 0, turnoverC: 20 },
  noise: {
    whitePmRms: 1e-11,
    h1: 0,
    h0: 8e-22,
    hMinus1: 3e-26,
    hMinus2: 0,
    bandwidthHz: 5e6,
    flickerLongest: 1e8,
  },
};
const make = (seed: string, changes: Partial<OscillatorParameters> = {}) =>
  new Oscillator(
    { ...parameters, ...changes },
    environment,
    1,
    new RandomStream(seed, "reference"),
  );

describe("Oscillator", () => {
  it("has the noise of its stream whatever its deterministic course", () => {
    const aged = make("one", { agingPerDay: 1e-6, fractionalOffset: 1e-3 });
    const other = make("one");
    aged.advance(100);
    other.advance(100);
    expect(aged.accumulated).toBe(other.accumulated);
    expect(aged.edgeNoise()).toBe(other.edgeNoise());
    expect(aged.accumulated).not.toBe(0);
  });

  it("has other noise for another seed", () => {
    const one = make("one");
    const two = make("two");
    one.advance(100);
    two.advance(100);
    expect(one.accumulated).not.toBe(two.accumulated);
  });

  it("keeps the steady slope apart from the small variable part", () => {
    const oscillator = make("one");
    expect(oscillator.steadySlope).toBeCloseTo(2e-8 / (1 + 2e-8), 22);
    // Ageing a a day over one day: a·86400/2 s; the daily cycle is back where it was
    // but for the 1.7 ms by which true time is behind.
    expect(oscillator.variableTimeError(86400)).toBeCloseTo((1e-10 * 86400) / 2, 11);
    expect(oscillator.rateAt(0)).toBeCloseTo(2e-8 + 3e-10, 20);
  });

  it("throws RangeError naming nominalHz", () => {
    expect(() => make("one", { nominalHz: 0 })).toThrow(/nominalHz must be > 0 Hz, got 0/);
  });
});
