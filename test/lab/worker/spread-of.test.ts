import { describe, expect, it } from "vitest";
import { lessonScenario, spreadOf } from "../../../src/lab/index.ts";
import { demo } from "../../page/lesson-file.ts";

const scenario = lessonScenario(demo("school-laboratory"));

/** A record of single periods of a second, of which read and steady rates are known. */
function record(rate: readonly number[], steady: readonly number[]) {
  // s = Δx/(n·T) = rate/(1 + rate).
  const gained = (rates: readonly number[]) => Float64Array.from(rates, (y) => y / (1 + y));
  const error = gained(rate);
  return {
    start: error,
    cycles: new Float64Array(rate.length).fill(1),
    interval: error.map((x) => 1 - x),
    error,
    errorOverRun: error,
    steadyError: gained(steady),
    startErrorOverRun: error,
    startSteadyError: error,
  };
}

describe("spreadOf", () => {
  // s² = 10/9 by hand. Quantiles of chi-square with 9 degrees of freedom: 2.700 and 19.023
  // (NIST/SEMATECH e-Handbook, table 1.3.6.7.4).
  it("is the standard deviation with its interval by chi-square", () => {
    const rate = Array.from({ length: 10 }, (_, i) => (i % 2 === 0 ? 0.1 : -0.1));
    const found = spreadOf(scenario, record(rate, new Array(10).fill(0)));
    const { rms, low, high } = { rms: 10 * found.rms, low: 10 * found.low, high: 10 * found.high };
    const { readings } = found;
    expect(readings).toBe(10);
    expect(rms).toBeCloseTo(Math.sqrt(10 / 9), 12);
    expect(low).toBeCloseTo(Math.sqrt(10 / 19.023), 4);
    expect(high).toBeCloseTo(Math.sqrt(10 / 2.7), 3);
  });

  it("is about the steady course of the readings, and does not see what shifts all alike", () => {
    const steady = [0.01, 0.05, -0.03, 0.08];
    const read = steady.map((value) => value + 0.07);
    expect(spreadOf(scenario, record(read, steady)).rms).toBeLessThan(1e-15);
  });

  it("leaves out readings that give no rate", () => {
    const { readings } = spreadOf(scenario, record([0.1, Number.NaN, 0.2], [0, 0, 0]));
    expect(readings).toBe(2);
  });
});
