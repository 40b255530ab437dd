import { describe, expect, it } from "vitest";
import { endPoints, estimateVariance } from "../../src/planning/index.ts";
import { counterNoise } from "../../src/stages/counter/index.ts";
import { observatory } from "./scenario-of.ts";

const { counter } = observatory();
const spread = (terms: ReturnType<typeof counterNoise>, span: number) =>
  Math.sqrt(terms.reduce((sum, { shape }) => sum + estimateVariance(endPoints(span), shape), 0));

describe("counterNoise", () => {
  it("gives an interval an rms error of q/√6 by resolution and √2·σ by trigger noise", () => {
    // Asynchronous clock quantisation: the difference of two uniform errors, q/√6 = 0.408 q (triangular).
    const resolution = { ...counter, triggerNoise: 0, resolution: 1e-7 };
    expect(spread(counterNoise(resolution, 1), 50) * 50).toBeCloseTo(1e-7 / Math.sqrt(6), 18);
    const trigger = { ...counter, triggerNoise: 5e-6, resolution: 0 };
    expect(spread(counterNoise(trigger, 1), 50) * 50).toBeCloseTo(Math.SQRT2 * 5e-6, 17);
  });

  it("lets a direct counter resolve whole periods", () => {
    const direct = { ...counter, technique: "direct", triggerNoise: 0 } as const;
    expect(spread(counterNoise(direct, 0.2), 10) * 10).toBeCloseTo(0.2 / Math.sqrt(6), 12);
  });

  it("lets trigger noise shift the gate of a direct counter, many fast edges at a time", () => {
    const direct = { ...counter, technique: "direct", triggerNoise: 5e-6 } as const;
    expect(spread(counterNoise(direct, 1e-7), 50) * 50).toBeCloseTo(
      Math.hypot(Math.SQRT2 * 5e-6, 1e-7 / Math.sqrt(6)),
      17,
    );
  });

  it("counts the noise of its own time base, and none of the reference's", () => {
    const levels = { whitePmRms: 1e-9, h1: 0, h0: 2e-20, hMinus1: 1e-24, hMinus2: 1e-30 };
    const noise = { ...levels, bandwidthHz: 0.5, flickerLongest: 1e8 };
    const timebase = { fractionalOffset: 0, uncertainty: 0, noise };
    const own = counterNoise({ ...counter, timebase }, 1).filter(
      ({ stage }) => stage === "time base",
    );
    const causes = new Set(own.map(({ cause }) => cause));
    expect(causes).toEqual(new Set(["white PM", "white FM", "flicker FM", "random-walk FM"]));
    const shared = counterNoise({ ...counter, timebase: "reference" }, 1);
    expect(shared.every(({ stage }) => stage === "counter")).toBe(true);
  });
});
