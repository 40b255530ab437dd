import { describe, expect, it } from "vitest";
import { runChain, scenarioOf } from "./run-chain.ts";

const rms = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

/**
 * Rms of the second differences of stamps back to back, over √6: the jitter of one stamp. A constant rate is gone from it, rounding is not.
 */
function jitterOf(gained: readonly number[]): number {
  const second = gained.slice(1).map((x, i) => x - gained[i]!);
  return rms(second) / Math.sqrt(6);
}

/** 1000 readings of a million seconds each: 1e9 s. */
const long = (reference: string, chain = "", input = "clock", trigger = 1e-12) =>
  scenarioOf(`
title: long
length_s: 1e9
clock: { tick_hz: 1 }
reference: { nominal_hz: 5e6, ${reference} }
${chain}
counter: { input: ${input}, technique: reciprocal, gate_s: 1e6, trigger_noise_s: ${trigger}, timebase: {} }`);

const synthesizer = (setting: string) =>
  `synthesizer: { output_hz: 5.01368954675, ${setting}loop: { natural_hz: 1.5, damping: 0.8 } }`;

// The jitter put in is the jitter that must come out. A
// double that held 1e9 s would show 1.2e-7 s of rounding, one that held a gate of 1e6 s 1.2e-10 s.
describe("1e9 simulated seconds show jitter of a picosecond, not rounding", () => {
  const cases: readonly [string, number, ReturnType<typeof long>][] = [
    ["on the reference", 0, long("fractional_offset: 0", "", "reference")],
    [
      "on a clock that divides an oscillator off by 6.1e-5",
      60_000,
      long("fractional_offset: -6.1e-5"),
    ],
    [
      "where the trigger is perfect and the edges jitter",
      300,
      long("fractional_offset: 3.3e-7, noise: { white_pm_rms_s: 1e-12 }", "", "clock", 0),
    ],
    [
      "behind a synthesizer whose setting error has grown to seconds",
      1,
      long("fractional_offset: 0", synthesizer("setting_step_hz: 1e-7, "), "synthesizer"),
    ],
  ];

  it.each(cases)("%s", (_name, grown, scenario) => {
    const { readings } = runChain(scenario, { recording: "lazy" });
    expect(readings.length).toBeGreaterThan(990);
    const gained = readings.map((reading) => reading.timeError);
    const total = gained.reduce((a, b) => a + b, 0);
    expect(Math.abs(total)).toBeGreaterThanOrEqual(grown);
    // A thousand readings: three standard deviations of the estimate are some 8 %.
    expect(Math.abs(jitterOf(gained) / 1e-12 - 1)).toBeLessThan(0.08);
  });
});
