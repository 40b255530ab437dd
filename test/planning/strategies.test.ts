import { describe, expect, it } from "vitest";
import {
  type Method,
  sourceDeviation,
  standardUncertainty,
  strategies,
} from "../../src/planning/index.ts";
import type { Scenario } from "../../src/scenario/index.ts";
import { observatory, school } from "./scenario-of.ts";
import { simulatedError } from "./simulated-error.ts";

/** Observed over predicted rms; the relative error of an rms from n runs is 1/√(2n). */
function ratio(scenario: Scenario, method: Method, readings: number, runs: number): number {
  const strategy = strategies(scenario).find((each) => each.method === method)!;
  let square = 0;
  for (let run = 0; run < runs; run++) {
    square += simulatedError(scenario, strategy, readings, `plan-${run}`) ** 2 / runs;
  }
  return Math.sqrt(square) / standardUncertainty(strategy, readings);
}

/** Four standard errors of an rms from so many runs: a false alarm in 16 000. */
const tolerance = (runs: number) => 4 / Math.sqrt(2 * runs);

describe("standardUncertainty", () => {
  it.each([
    "single_periods",
    "gates_with_dead_time",
    "back_to_back_mean",
    "back_to_back_line",
    "stamped_ticks_line",
  ] as const)("foretells simulated runs of a jittery clock: %s", (method) => {
    const found = ratio(
      school((scenario) => {
        scenario.counter.gate = method === "single_periods" ? "single" : 10;
      }),
      method,
      25,
      400,
    );
    expect(Math.abs(found - 1)).toBeLessThan(tolerance(400));
  });

  it("foretells simulated runs of a loop whose jitter is correlated from edge to edge", () => {
    const loop = observatory((scenario) => {
      scenario.synthesizer!.loop.naturalHz = 0.05;
      scenario.counter.triggerNoise = 0;
      scenario.counter.resolution = 0;
      scenario.counter.gate = 1;
    });
    const found = ratio(loop, "synthesizer_output", 60, 300);
    expect(Math.abs(found - 1)).toBeLessThan(tolerance(300));
  });

  it("foretells simulated runs with a noisy time base", () => {
    const timed = school((scenario) => {
      if (scenario.counter.timebase === "reference") return;
      Object.assign(scenario.counter.timebase.noise, { h0: 1e-10, hMinus1: 1e-12, hMinus2: 1e-16 });
      scenario.reference.noise.whitePmRms = 1e-6;
    });
    const found = ratio(timed, "stamped_ticks_line", 100, 400);
    expect(Math.abs(found - 1)).toBeLessThan(tolerance(400));
  });
});

describe("sourceDeviation", () => {
  it("is the Allan deviation of the reference's frequency noise (IEEE Std 1139)", () => {
    // White FM 2e-11/√τ, flicker floor 2e-13, random walk 1e-16·√τ.
    const expected = Math.hypot(2e-11 / Math.sqrt(1e4), 2e-13, 1e-16 * Math.sqrt(1e4));
    expect(sourceDeviation(observatory(), 1e4) / expected).toBeCloseTo(1, 9);
  });

  it("is nothing where the counter runs on the reference itself", () => {
    const shared = observatory((scenario) => {
      scenario.counter.timebase = "reference";
    });
    expect(sourceDeviation(shared, 1e4)).toBe(0);
  });
});
