import { describe, expect, it } from "vitest";
import { outcome } from "../../src/chain/index.ts";
import { runChain, scenarioOf, type Taken } from "./run-chain.ts";

const ownPeriod = 1 / (1 - 4e-5);

/** A line so bad that the watchdog, quicker than a tick, wakes again and again. */
const badLine = (after: number, drop: number) =>
  scenarioOf(`
title: bad line
length_s: 600
clock: { tick_hz: 1 }
reference: { nominal_hz: 10e6 }
synthesizer: { output_hz: 4, loop: { natural_hz: 1, damping: 0.7 }, noise: { white_fm_adev_1s: 3e-6 } }
drive: { carrier_hz: 1210, burst_s: 0.06, amplitude_v: 12, amplitude_noise: 0.02, drop_probability: ${drop} }
receiver: { rectifier: full, time_constant_s: 0.012, threshold_v: 4.2, noise_v: 0.12, steps_per_tick: 4,
            fallback: { after_s: ${after}, fractional_offset: -4e-5 } }
counter: { input: clock, technique: reciprocal, gate_s: 5, timebase: reference }`);

/** When the good bursts made their steps, from the table of bursts. */
function stepsOf({ bursts }: Taken): number[] {
  return bursts
    .filter((burst) => burst.outcome === outcome.step)
    .map(({ burst, startError, delay }) => burst / 4 - startError + delay);
}

/** The ticks that a watchdog and a step counter give, by the rules alone: counting, no published source. */
function expectedTicks(
  steps: readonly number[],
  after: number,
  end: number,
): { at: number; isOwn: boolean }[] {
  const ticks: { at: number; isOwn: boolean }[] = [];
  let last = 0;
  let counted = 0;
  for (const step of [...steps, end]) {
    for (let at = last + after; at < step; at += ownPeriod) {
      ticks.push({ at, isOwn: true });
      counted = 0;
    }
    if (step === end) break;
    counted++;
    if (counted === 4) {
      ticks.push({ at: step, isOwn: false });
      counted = 0;
    }
    last = step;
  }
  return ticks;
}

describe("FallbackProcess", () => {
  // A silence of 0.75 s ends about when the third burst makes its step: now the one comes first, now the other.
  it.each([
    [0.62, 0.3],
    [0.62, 0.6],
    [0.62, 0.8],
    [0.75, 0.6],
  ])("takes over and gives way by the rule: after %s s, %s of the bursts lost", (after, drop) => {
    for (const seed of ["a", "b", "c"]) {
      const scenario = badLine(after, drop);
      const taken = runChain(scenario, { recording: "bursts", seed, takes: ["ticks", "bursts"] });
      const expected = expectedTicks(stepsOf(taken), after, 600);
      expect(expected.filter((tick) => tick.isOwn).length).toBeGreaterThan(20);
      expect(taken.ticks.map((tick) => tick.isFallback)).toEqual(
        expected.map((tick) => tick.isOwn),
      );
      for (const [i, tick] of taken.ticks.entries()) {
        expect(tick.at).toBeCloseTo(expected[i]!.at, 8);
      }
    }
  });

  // Counting, common practice.
  it("writes down from when to when it ticks, though nobody looks at its first ticks", () => {
    const scenario = scenarioOf(`
title: one silence
length_s: 900
clock: { tick_hz: 1 }
reference: { nominal_hz: 10e6 }
synthesizer: { output_hz: 4, loop: { natural_hz: 1, damping: 0.7 } }
drive: { carrier_hz: 1210, burst_s: 0.06, amplitude_v: 12 }
receiver: { rectifier: full, time_constant_s: 0.012, threshold_v: 4.2, noise_v: 0.12, steps_per_tick: 4,
            fallback: { after_s: 1.2, fractional_offset: -4e-5 } }
counter: { input: clock, technique: reciprocal, gate_s: 200, timebase: reference }
disturbances: [{ at_s: 300.1, kind: drive_off, for_s: 250.6 }]`);
    for (const recording of ["bursts", "ticks", "lazy"] as const) {
      const { fallback, fallbackTime } = runChain(scenario, { recording, takes: [] });
      expect(fallback).toHaveLength(1);
      const [from, to] = fallback[0]!;
      // The last step: the burst at 300 s, detected within its 60 ms. The first burst after the silence: 550.75 s.
      expect(from).toBeGreaterThan(301.2);
      expect(from).toBeLessThan(301.26);
      expect((to - from) / ownPeriod).toBeCloseTo(249, 6);
      expect(fallbackTime).toBeCloseTo(to - from, 9);
    }
  });

  it("goes on adding up its time where there are more spans than are listed", () => {
    const length = 60_000;
    const scenario = badLine(0.62, 0.3);
    const taken = runChain(scenario, { length, recording: "bursts", takes: ["bursts"] });
    // From the first tick of each silence to its last: whole periods of the clock's own oscillator.
    const steps = [0, ...stepsOf(taken), length];
    const spans = steps.slice(1).map((step, i) => {
      const left = step - steps[i]! - 0.62;
      return Math.max(0, Math.floor(left / ownPeriod)) * ownPeriod;
    });
    const time = spans.reduce((sum, span) => sum + span, 0);
    expect(time).toBeGreaterThan(50);
    expect(taken.fallback).toHaveLength(10_000);
    expect(taken.fallbackTime).toBeCloseTo(time, 3);
    expect(taken.fallback.every(([from, to]) => to - from < 60)).toBe(true);
  });
});
