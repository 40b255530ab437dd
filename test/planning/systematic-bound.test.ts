import { describe, expect, it } from "vitest";
import { slipNoise } from "../../src/planning/slip-noise.ts";
import { systematicBound, systematicCauses } from "../../src/planning/systematic-bound.ts";
import { observatory } from "./scenario-of.ts";

describe("systematicBound", () => {
  it("is the uncertainty of the time base, or the offset of the reference where that is the time base", () => {
    expect(systematicBound(observatory(), "clock")).toBe(1e-8);
    const shared = observatory((changed) => {
      changed.counter.timebase = "reference";
    });
    expect(systematicBound(shared, "clock")).toBe(2e-11);
  });

  it("counts bursts that do not arrive, for the clock alone", () => {
    const scenario = observatory((changed) => {
      changed.drive!.dropProbability = 1e-4;
    });
    // One step in ten thousand is lost, so the clock is slow by that part.
    expect(systematicBound(scenario, "clock")).toBeCloseTo(1e-4 + 1e-8, 12);
    expect(systematicBound(scenario, "synthesizer")).toBe(1e-8);
    expect(systematicCauses(scenario, "clock").map(({ stage }) => stage)).toEqual([
      "time base",
      "drive",
    ]);
  });
});

describe("slipNoise", () => {
  it("scatters as a Poisson process: variance n·T·d² in T seconds", () => {
    const scenario = observatory((changed) => {
      changed.receiver!.extraStepRateHz = 0.01;
    });
    const { rate, terms } = slipNoise(scenario, "clock", 1);
    expect(rate).toBeCloseTo(0.01 / 5, 12);
    // White FM makes a variance of time error of (h0/2)·T.
    const shape = terms[0]!.shape as { h0: number };
    expect(shape.h0 / 2).toBeCloseTo(0.01 * 0.2 ** 2, 12);
  });

  it("adds nothing to a chain in which nothing is lost", () => {
    expect(slipNoise(observatory(), "clock", 1)).toEqual({ terms: [], rate: 0 });
  });
});
