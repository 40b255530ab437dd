import { describe, expect, it } from "vitest";
import { RunRecord, Simulation, settleRun } from "../../src/chain/index.ts";
import { endToEndSlope, rateOfSlope } from "../../src/judgement/index.ts";
import { estimateTruths, runReadings } from "../../src/planning/index.ts";
import type { Scenario } from "../../src/scenario/index.ts";
import { runChain, scenarioOf } from "./run-chain.ts";

/** A clock without noise, off by a rate. */
const off = (rate: number, counter: string) =>
  scenarioOf(`
title: off
length_s: 100000
clock: { tick_hz: 1 }
reference: { nominal_hz: 32768, fractional_offset: ${rate} }
counter: { input: clock, ${counter}, timebase: {} }`);

/** The same, driven at twice its rate throughout. */
const doubled = (counter: string) =>
  scenarioOf(`
title: doubled
length_s: 4000
clock: { tick_hz: 1 }
reference: { nominal_hz: 10e6 }
synthesizer: { output_hz: 8, loop: { natural_hz: 1, damping: 0.7 } }
drive: { carrier_hz: 1000, carrier_lock: locked, burst_s: 0.06, amplitude_v: 12 }
receiver: { rectifier: full, time_constant_s: 0.01, threshold_v: 4.5, noise_v: 0, steps_per_tick: 4 }
counter: { input: clock, ${counter}, timebase: {} }`);

const cases: readonly [string, number, (counter: string) => Scenario][] = [
  ["6.1e-5 slow", -6.1e-5, (counter) => off(-6.1e-5, counter)],
  ["at twice its rate", 1, doubled],
];

// f/f₀ − 1 by definition (IEEE Std 1139, fractional frequency); fast is positive.
describe.each(cases)("a clock %s shows its exact rate", (_name, rate, scenarioWith) => {
  const total = (counter: string) => {
    const { readings } = runChain(scenarioWith(counter), { recording: "lazy" });
    const cycles = readings.reduce((sum, reading) => sum + reading.cycles, 0);
    const interval = readings.reduce((sum, reading) => sum + reading.interval, 0);
    return { readings, cycles, interval };
  };

  it("by the reciprocal technique, in each reading", () => {
    const { readings } = total("technique: reciprocal, gate_s: 50");
    expect(readings.length).toBeGreaterThan(70);
    for (const { cycles, interval } of readings) {
      expect((cycles - interval) / interval).toBeCloseTo(rate, 12);
    }
  });

  it("by the direct technique, to one count in all", () => {
    const { cycles, interval } = total("technique: direct, gate_s: 50");
    expect(Math.abs(cycles / interval - 1 - rate)).toBeLessThanOrEqual(1 / interval);
  });

  it("by time intervals, and so do all truths", () => {
    const scenario = scenarioWith("technique: time_interval, gate_s: 50");
    const record = RunRecord.of(scenario);
    const request = { seed: "t", length: null, readings: null, recording: "lazy" as const };
    const { options } = settleRun(scenario, { ...request, wantsTicks: false, wantsBursts: false });
    new Simulation(scenario, options, { reading: (reading) => record.add(reading) }).run();
    const columns = record.read();
    const readings = runReadings(scenario, columns);
    if (readings.kind !== "time_error") throw new Error("time errors expected");
    const { timeError, spacing } = readings;
    // Time errors at even seconds of the counter: x grows by its rate.
    const gained = timeError[timeError.length - 1]! - timeError[0]!;
    expect(gained / ((timeError.length - 1) * spacing)).toBeCloseTo(rate, 9);
    const truths = estimateTruths(scenario, columns);
    for (const truth of Object.values(truths)) expect(truth.steadyRate).toBeCloseTo(rate, 9);
  });
});

describe("the slope of time error over nominal time", () => {
  it("is not the rate, in second order: doubled, it is a half", () => {
    const edges = Float64Array.of(0, 10, 20);
    const slope = endToEndSlope(edges, Float64Array.of(0, 5, 10), 1);
    expect(slope).toBe(0.5);
    expect(rateOfSlope(slope)).toBe(1);
  });
});
