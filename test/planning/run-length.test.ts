import { describe, expect, it } from "vitest";
import {
  halfWidth,
  type Method,
  predict,
  runLength,
  strategies,
} from "../../src/planning/index.ts";
import type { Scenario } from "../../src/scenario/index.ts";
import { observatory, perfectlyTimed, school } from "./scenario-of.ts";

const hour = 3600;
const day = 86400;
const year = 365.25 * day;

/** Lengths by method. */
function lengths(scenario: Scenario, within: number, confidence?: number) {
  const ways = strategies(scenario);
  return (method: Method) => {
    const way = ways.find((each) => each.method === method)!;
    return { way, ...runLength(scenario, way, within, confidence) };
  };
}

describe("runLength", () => {
  // One standard deviation stands for 68.27 %. Rubiola 2005 (end points), Rubiola et al. 2016 (line): with 1 ms of
  // white jitter a tick a second, 0.1 s/day takes √2·σ/ε = 1221.9 s by end points, (12σ²τ/ε²)^(1/3) = 207.7 s by a
  // fitted line, and 2σ²/ε² = 1.49e6 readings of a second with dead time.
  it("meets the published run lengths under white PM", () => {
    const found = lengths(school(), 0.1 / day, 0.6826894921);
    expect(found("back_to_back_line").length).toBeGreaterThan(0);
    expect(Math.abs(found("stamped_ticks_line").readings / 207.7 - 1)).toBeLessThan(0.01);
    expect(Math.abs(found("single_periods").readings / 1.49e6 - 1)).toBeLessThan(0.005);
    const gate = school((scenario) => {
      scenario.counter.gate = 10.5;
    });
    // A gate that ends between two ticks holds eleven of them.
    const whole = lengths(gate, 0.1 / day, 0.6826894921)("back_to_back_mean");
    expect(Math.abs(whole.readings * 11 - 1221.9)).toBeLessThan(11);
  });

  it("on the observatory chain: hours by stamped ticks, weeks by gates averaged, ages by single periods", () => {
    const found = lengths(perfectlyTimed(), 1e-9);
    expect(found("stamped_ticks_line").length).toBeGreaterThan(2 * hour);
    expect(found("stamped_ticks_line").length).toBeLessThan(12 * hour);
    expect(found("back_to_back_mean").length).toBeGreaterThan(14 * day);
    expect(found("back_to_back_mean").length).toBeLessThan(60 * day);
    expect(found("single_periods").length).toBeGreaterThan(1e5 * year);
    expect(found("synthesizer_output").length).toBeLessThan(found("stamped_ticks_line").length);
    expect(found("longest_gate").way.timing.gate).toBeGreaterThan(1000);
  });

  it("is the inverse of the prediction for that length", () => {
    const scenario = perfectlyTimed();
    for (const way of strategies(scenario)) {
      const found = runLength(scenario, way, 3e-9);
      const back = predict(scenario, way, found.length);
      expect(back.readings).toBe(found.readings);
      // The normal quantile for 95 % is 1.959964.
      const width = 1.959964 * Math.hypot(back.standardUncertainty, back.sourceDeviation);
      expect(width).toBeLessThanOrEqual(3e-9 * (1 + 1e-6));
      expect(halfWidth(scenario, way, found.readings - 1, 0.95)).toBeGreaterThan(3e-9);
      if (found.readings > 200) expect(width / 3e-9).toBeGreaterThan(0.99);
    }
  });

  it("says never where the time base is not known so well", () => {
    const found = lengths(observatory(), 1e-9)("stamped_ticks_line");
    expect(found.reachable).toBe(false);
    expect(found.limitedBy).toBe(
      "the counter's time base is known to 1e-8 (counter.timebase.uncertainty)",
    );
    expect(lengths(observatory(), 1.1e-8)("stamped_ticks_line").reachable).toBe(true);
  });

  it("says never where the source wanders more than that, and who it is", () => {
    const scenario = school((changed) => {
      changed.reference.noise.hMinus1 = 1e-12;
    });
    const found = lengths(scenario, 1e-7)("stamped_ticks_line");
    expect(found.reachable).toBe(false);
    expect(found.limitedBy).toMatch(/^the reference's own frequency noise lets no run/);
  });

  it("says what a direct counter cannot do", () => {
    const scenario = school((changed) => {
      changed.counter.technique = "direct";
      changed.counter.gate = 10;
    });
    const found = lengths(scenario, 1e-5);
    expect(found("stamped_ticks_line").reachable).toBe(false);
    // One count over the total: q/√6 of a second over the run, 1.96 times, within 1e-5: 8.0e4 s.
    expect(Math.abs(found("back_to_back_mean").length / 8.0e4 - 1)).toBeLessThan(0.01);
  });

  it("refuses accuracies and confidences out of range", () => {
    const way = strategies(school())[0]!;
    expect(() => runLength(school(), way, 0)).toThrow(RangeError);
    expect(() => runLength(school(), way, 1e-6, 1)).toThrow(RangeError);
  });
});
