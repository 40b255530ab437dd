import { describe, expect, it } from "vitest";
import { checkChain } from "../../src/planning/index.ts";
import { demo, runChain } from "../chain/run-chain.ts";
import { school, twoKelvinWarm } from "./scenario-of.ts";

describe("checkChain", () => {
  it("counts the digits that the scatter of a reading leaves", () => {
    // Two edges of 1 ms each, in a period of 1 s.
    const { readingRms, digits } = checkChain(school(), []);
    expect(readingRms).toBeCloseTo(Math.SQRT2 * 1e-3, 12);
    expect(digits).toBe(2);
  });

  it("judges no digit where the scenario has no noise, and says what noise is typical", () => {
    const silent = school((changed) => {
      changed.reference.noise = { ...changed.reference.noise, whitePmRms: 0 };
    });
    const { digits, warnings } = checkChain(silent, []);
    expect(digits).toBeNull();
    expect(warnings.map(({ code }) => code)).toEqual(["no_noise", "no_scatter"]);
    expect(checkChain(school(), []).warnings).toEqual([]);
  });

  it("resolves time as finely as the doubles of the largest time error lie (IEEE 754)", () => {
    const resolutionAt = (error: number) => {
      const scenario = school((changed) => {
        // Ageing a a day makes a·T²/2, T in days, times the seconds of a day.
        const days = changed.length / 86400;
        changed.reference.agingPerDay = (2 * error) / (days * changed.length);
      });
      return checkChain(scenario, []).timeResolution;
    };
    expect(resolutionAt(0)).toBe(2 ** -52);
    expect(resolutionAt(1.9)).toBe(2 ** -52);
    expect(resolutionAt(2.1)).toBe(2 ** -51);
    expect(resolutionAt(3.9)).toBe(2 ** -51);
  });

  it("sees the beat that the reference's rate makes, whatever the cause", () => {
    const beatsOf = (fractionalOffset: number, linearPerK: number) => {
      const scenario = twoKelvinWarm(fractionalOffset, linearPerK);
      return checkChain(scenario, []).beats;
    };
    expect(beatsOf(0, 5e-7)).toEqual(beatsOf(1e-6, 0));
    expect(beatsOf(0, 0)).not.toEqual(beatsOf(1e-6, 0));
  });

  it("says how far the delay swings behind an integrator, as simulated bursts show it", () => {
    const still = demo("observatory", ["receiver.noise_v=0", "drive.amplitude_noise=0"]);
    const { delayAmplitude, period } = checkChain(still, []).beats[0]!;
    const { bursts } = runChain(still, { length: 40 * period, takes: ["bursts"] });
    let re = 0;
    let im = 0;
    for (const { burst, delay } of bursts) {
      const angle = (2 * Math.PI * burst) / (period * still.synthesizer!.outputHz);
      re += (2 / bursts.length) * delay * Math.cos(angle);
      im += (2 / bursts.length) * delay * Math.sin(angle);
    }
    expect(Math.hypot(re, im) / delayAmplitude).toBeCloseTo(1, 1);
    // An independent simulation of the chain saw 3 to 6 µs with noise, 31 without.
    expect(delayAmplitude).toBeCloseTo(31e-6, 6);
    const noisy = checkChain(demo("observatory"), []).beats[0]!.delayAmplitude;
    expect(noisy).toBeGreaterThan(3e-6);
    expect(noisy).toBeLessThan(6e-6);
  });
});
