import { describe, expect, it } from "vitest";
import type { RateEstimate } from "../../src/judgement/index.ts";
import { raceOfScenario, unraced } from "../../src/planning/index.ts";
import { runChain } from "../chain/run-chain.ts";
import { school } from "./scenario-of.ts";

/** A clock of white jitter, read with a gate and a dead time (s). */
const read = (gate: number | "single", deadTime: number, length = 3600) =>
  school((changed) => {
    changed.length = length;
    changed.counter.gate = gate;
    changed.counter.deadTime = deadTime;
  });

describe("a gate of whole periods", () => {
  it.each([
    [2, 0.5, "gate_s", 1.5],
    [5, 0.5, "gate_s", 4.5],
    [4.5, 2, "dead_time_s", 1.5],
  ] as const)(
    "of %f s with %f s of dead time reads as slow as simulated readings do",
    (gate, dead, key, value) => {
      const scenario = read(gate, dead, 60_000);
      const { bias, better } = raceOfScenario(scenario)!;
      expect(better).toEqual({ key, value });
      // Count over time, as the mean of readings is made.
      const { readings } = runChain(scenario, { takes: [] });
      const total = readings.reduce((sum, { cycles }) => sum + cycles, 0);
      let sum = 0;
      let square = 0;
      for (const { cycles, interval } of readings) {
        sum += (cycles - interval) / total;
        square += (cycles - interval) ** 2 / total ** 2;
      }
      const error = Math.sqrt(square);
      expect(Math.abs(sum - bias)).toBeLessThan(4 * error);
      // The bias is there: many times the error that chance makes.
      expect(Math.abs(bias)).toBeGreaterThan(8 * error);
    },
  );

  it("does nothing back to back, nor half a period off, nor for one period a reading", () => {
    expect(raceOfScenario(read(2, 0))).toBeNull();
    expect(raceOfScenario(read(2.5, 0.5))).toBeNull();
    expect(raceOfScenario(read("single", 0.5))).toBeNull();
  });

  it("spoils the mean of readings once it is not small beside its uncertainty, and no other estimate", () => {
    const race = { bias: -1e-6, better: null };
    const estimate = (method: RateEstimate["method"], standardUncertainty: number) =>
      ({ method, standardUncertainty, applies: true, why: "" }) as RateEstimate;
    expect(unraced(estimate("mean_of_readings", 1e-6), race).applies).toBe(false);
    expect(unraced(estimate("mean_of_readings", 1e-5), race).applies).toBe(true);
    expect(unraced(estimate("line_fit", 1e-6), race).applies).toBe(true);
    expect(unraced(estimate("mean_of_readings", 1e-6), null).applies).toBe(true);
  });
});
