import { describe, expect, it } from "vitest";
import { outcome } from "../../src/chain/sinks.ts";
import { runChain, scenarioOf, type Taken } from "./run-chain.ts";

const own = 1 / (1 - 4e-5);

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
    for (let at = last + after; at < step; at += own) {
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
});
