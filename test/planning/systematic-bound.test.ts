import { describe, expect, it } from "vitest";
import type { Input } from "../../src/planning/index.ts";
import { slipNoise, systematicBound, systematicCauses } from "../../src/planning/index.ts";
import type { Scenario } from "../../src/scenario/index.ts";
import { observatory } from "./scenario-of.ts";

const boundOf = (scenario: Scenario, input: Input, missed = 0) =>
  systematicBound(
    systematicCauses(
      scenario,
      slipNoise(scenario, input, 1, { missProbability: missed, blockedProbability: 0 }),
    ),
  );

describe("systematicBound", () => {
  it("is the uncertainty of the time base, or the offset of the reference where that is the time base", () => {
    expect(boundOf(observatory(), "clock")).toBe(1e-8);
    const shared = observatory((changed) => {
      changed.counter.timebase = "reference";
      changed.reference.agingPerDay = 0;
    });
    expect(boundOf(shared, "clock")).toBe(2e-11);
  });

  it("is how far the reference is off for whatever reason: offset, ageing, temperature", () => {
    const shared = observatory((changed) => {
      changed.counter.timebase = "reference";
      changed.length = 2 * 86400;
      changed.reference.agingPerDay = 3e-11;
      changed.reference.temperature = { linearPerK: -1e-10, parabolicPerK2: 0, turnoverC: 25 };
      changed.environment = { meanC: 20, dailyAmplitudeK: 4, dailyPeak: 0, rampKPerDay: 0 };
    });
    // 2e-11 + 3e-11 a day for a day on the average + 5 K at 1e-10 a kelvin.
    expect(boundOf(shared, "clock")).toBeCloseTo(5.5e-10, 15);
  });

  it("counts bursts that do not arrive, for the clock alone", () => {
    const scenario = observatory((changed) => {
      changed.drive!.dropProbability = 1e-4;
    });
    // One step in ten thousand is lost, so the clock is slow by that part.
    expect(boundOf(scenario, "clock")).toBeCloseTo(1e-4 + 1e-8, 12);
    expect(boundOf(scenario, "synthesizer")).toBe(1e-8);
    const causes = systematicCauses(scenario, slipNoise(scenario, "clock", 1, null));
    expect(causes.map(({ stage }) => stage)).toEqual(["time base", "drive"]);
    // A burst in a thousand missed on top, of those that arrive.
    expect(boundOf(scenario, "clock", 1e-3)).toBeCloseTo(1e-4 + 0.9999e-3 + 1e-8, 12);
  });
});

describe("slipNoise", () => {
  it("scatters as a Poisson process: variance n·T·d² in T seconds", () => {
    const scenario = observatory((changed) => {
      changed.receiver!.extraStepRateHz = 0.01;
    });
    const { rate, terms } = slipNoise(scenario, "clock", 1, null);
    expect(rate).toBeCloseTo(0.01 / 5, 12);
    // White FM makes a variance of time error of (h0/2)·T.
    const shape = terms[0]!.shape as { h0: number };
    expect(shape.h0 / 2).toBeCloseTo(0.01 * 0.2 ** 2, 12);
  });

  it("gains by edges counted twice, loses by those missed, and scatters by both", () => {
    const scenario = observatory((changed) => {
      changed.counter.missedEdgeProbability = 1e-6;
      changed.counter.extraEdgeProbability = 3e-6;
    });
    // Edges a fifth of a second apart: 5 a second, each worth a fifth of a second.
    const { rate, terms } = slipNoise(scenario, "synthesizer", 0.2, null);
    expect(rate).toBeCloseTo(2e-6, 15);
    const levels = terms.map(({ shape }) => (shape as { h0: number }).h0);
    expect(levels[0]).toBeCloseTo(2 * 5e-6 * 0.2 ** 2, 15);
    expect(levels[1]).toBeCloseTo(2 * 15e-6 * 0.2 ** 2, 15);
  });

  it("adds nothing to a chain in which nothing is lost", () => {
    expect(
      slipNoise(observatory(), "clock", 1, { missProbability: 1e-49, blockedProbability: 1e-198 }),
    ).toEqual({ terms: [], rate: 0 });
  });
});
