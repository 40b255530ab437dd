import { describe, expect, it } from "vitest";
import { planAccuracies, planLengths } from "../../src/planning/index.ts";
import { observatory, perfectlyTimed, school } from "./scenario-of.ts";

describe("planLengths", () => {
  it("finds the shortest way of those that read the clock", () => {
    const plan = planLengths(perfectlyTimed(), 1e-9);
    expect(plan.shortest?.method).toBe("stamped_ticks_line");
    expect(plan.rows.map(({ strategy }) => strategy.method)).toEqual([
      "single_periods",
      "gates_with_dead_time",
      "back_to_back_mean",
      "back_to_back_line",
      "stamped_ticks_line",
      "synthesizer_output",
      "reference_direct",
      "longest_gate",
    ]);
  });

  it("finds none where none gets there", () => {
    expect(planLengths(observatory(), 1e-9).shortest).toBeNull();
  });
});

describe("planAccuracies", () => {
  it("gives each way's standard uncertainty: √12·σ/(√N·T) for ticks stamped (Rubiola et al. 2016)", () => {
    const { rows } = planAccuracies(school(), 10001);
    const line = rows.find(({ strategy }) => strategy.method === "stamped_ticks_line")!;
    expect(line.prediction.readings).toBe(10000);
    const expected = (Math.sqrt(12) * 1e-3) / 1e4 ** 1.5;
    expect(line.prediction.standardUncertainty / expected).toBeCloseTo(1, 3);
  });

  it("gives NaN where the run is too short for a reading", () => {
    const { rows } = planAccuracies(observatory(), 20);
    const gates = rows.find(({ strategy }) => strategy.method === "back_to_back_mean")!;
    expect(gates.prediction.readings).toBe(0);
    expect(gates.prediction.standardUncertainty).toBeNaN();
  });

  it("refuses a length that is not above zero", () => {
    expect(() => planAccuracies(school(), 0)).toThrow(RangeError);
  });
});
