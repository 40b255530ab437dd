import { describe, expect, it } from "vitest";
import { overlappingAllanDeviation } from "../../src/analysis/index.ts";
import { runChain, scenarioOf } from "./run-chain.ts";

/** A clock that divides an oscillator with one noise, read every ten ticks by a counter without error. */
const clock = (noise: string, readings: number) =>
  scenarioOf(`
title: noise
length_s: ${10 * (readings + 2)}
clock: { tick_hz: 1 }
reference: { nominal_hz: 10e6, noise: ${noise} }
counter: { input: clock, technique: reciprocal, gate_s: 9.5, timebase: {} }`);

/** Time errors of the edges between readings back to back. */
function timeErrors(noise: string, readings: number, seed: string): Float64Array {
  const taken = runChain(clock(noise, readings), { recording: "lazy", seed, readings });
  const x = new Float64Array(readings + 1);
  taken.readings.forEach((reading, i) => {
    x[i + 1] = x[i]! + reading.timeError;
  });
  expect(taken.readings.every((reading) => reading.cycles === 10)).toBe(true);
  return x;
}

const euler = 0.5772156649015329;
const flickerPm = (h1: number, f: number, tau: number) =>
  Math.sqrt(h1 * (3 * euler - Math.LN2 + 3 * Math.log(2 * Math.PI * f * tau))) /
  (2 * Math.PI * tau);

// Allan deviation of each noise: IEEE Std 1139-2008, Annex B; white PM as independent errors x of edges, √3·x/τ;
// the bandwidth of the flicker PM is half the rate of the oscillator.
const cases: readonly [string, string, (tau: number) => number][] = [
  ["white PM", "{ white_pm_rms_s: 1e-6 }", (tau) => (Math.sqrt(3) * 1e-6) / tau],
  ["flicker PM", "{ h: { h1: 1e-20 } }", (tau) => flickerPm(1e-20, 5e6, tau)],
  ["white FM", "{ white_fm_adev_1s: 1e-9 }", (tau) => 1e-9 / Math.sqrt(tau)],
  ["flicker FM", "{ flicker_fm_adev: 1e-11 }", () => 1e-11],
  ["random-walk FM", "{ random_walk_fm_adev_1s: 1e-14 }", (tau) => 1e-14 * Math.sqrt(tau)],
];

describe("each noise alone shows its Allan deviation in the readings of a clock", () => {
  it.each(cases)(
    "%s",
    (_name, noise, deviation) => {
      const x = timeErrors(noise, 40_000, "noise");
      // 40 000 and 5000 intervals: the estimate's own spread is below 0.6 % and 1.2 %.
      for (const m of [1, 8]) {
        const found = overlappingAllanDeviation(x, 10, m);
        expect(Math.abs(found / deviation(10 * m) - 1)).toBeLessThan(0.03);
      }
    },
    60_000,
  );
});
