import { describe, expect, it } from "vitest";
import { chainNoise, delayByPhase, detectionDelay, inputPeriod } from "../../src/planning/index.ts";
import { ownVariance } from "../../src/theory/index.ts";
import { observatory, school, twoKelvinWarm } from "./scenario-of.ts";

describe("inputPeriod", () => {
  it("is that of the rate set, of the reference, or of the clock that divides it", () => {
    // 5.01368954675 Hz asked for in steps of 1e-7 Hz: 5.0136895 Hz set, five bursts a tick.
    expect(inputPeriod(observatory(), "synthesizer")).toBeCloseTo(1 / 5.0136895, 12);
    expect(inputPeriod(observatory(), "clock")).toBeCloseTo(5 / 5.0136895, 12);
    expect(inputPeriod(observatory(), "reference")).toBe(1e-7);
    expect(inputPeriod(school(), "clock")).toBe(1);
    expect(() => inputPeriod(school(), "synthesizer")).toThrow(RangeError);
  });
});

describe("chainNoise", () => {
  it("has, at a single tick, the variance of the detection delay over phase, noise and amplitude", () => {
    const scenario = observatory((changed) => {
      changed.synthesizer!.noise = { ...changed.synthesizer!.noise, h0: 0, hMinus1: 0 };
    });
    const { noise } = chainNoise(scenario, "clock", delayByPhase(scenario));
    const variance = noise.reduce((sum, term) => sum + ownVariance(term), 0);
    const { rmsDelay } = detectionDelay(scenario)!;
    expect(Math.sqrt(variance) / rmsDelay).toBeCloseTo(1, 4);
  });

  it("has no beat where every burst begins at the same phase of the tone", () => {
    const scenario = observatory((changed) => {
      changed.drive!.carrierLock = "locked";
    });
    const { noise } = chainNoise(scenario, "clock", delayByPhase(scenario));
    expect(noise.some(({ stage }) => stage === "drive")).toBe(false);
  });

  it("beats as the edges come, whatever it is that puts the reference off", () => {
    // One and the same rate, said in two ways: 1e-6 of offset, or 2 K at 5e-7 a kelvin.
    const linesOf = (fractionalOffset: number, linearPerK: number) => {
      const scenario = twoKelvinWarm(fractionalOffset, linearPerK);
      return chainNoise(scenario, "clock", delayByPhase(scenario)).noise.find(
        ({ cause }) => cause === "start phase of the tone",
      );
    };
    expect(linesOf(0, 5e-7)).toEqual(linesOf(1e-6, 0));
    expect(linesOf(0, 0)).not.toEqual(linesOf(1e-6, 0));
  });

  it("shares the phase noise of the reference with a counter that runs on it", () => {
    const shared = school((changed) => {
      changed.counter.timebase = "reference";
    });
    expect(chainNoise(shared, "clock", null).noise).toEqual([]);
    expect(chainNoise(school(), "clock", null).noise).toHaveLength(1);
  });

  it("asks for the delay where the clock has a receiver", () => {
    expect(() => chainNoise(observatory(), "clock", null)).toThrow(RangeError);
  });
});
