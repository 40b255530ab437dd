import { describe, expect, it } from "vitest";
import type { Recording } from "../../src/scenario/index.ts";
import { runChain, scenarioOf, type TakenTick } from "./run-chain.ts";

/** A chain without any noise, whose delay is the same for every burst: a tone locked to them. */
const quiet = (disturbances: string, more = "") => `
title: quiet
length_s: 400
clock: { tick_hz: 1 }
reference: { nominal_hz: 10e6 }
synthesizer: { output_hz: 4, loop: { natural_hz: 1, damping: 0.7 } }
drive: { carrier_hz: 1000, carrier_lock: locked, burst_s: 0.06, amplitude_v: 12 }
receiver: { rectifier: full, time_constant_s: 0.01, threshold_v: 4.5, noise_v: 0, steps_per_tick: 4${more} }
counter: { input: clock, technique: reciprocal, gate_s: single, timebase: reference }
disturbances: [${disturbances}]
`;
const fallback = ", fallback: { after_s: 1.2, fractional_offset: -4e-5 }";

const between = (ticks: readonly TakenTick[], from: number, to: number) =>
  ticks.filter(({ at }) => at >= from && at < to);

const modes: readonly Recording[] = ["bursts", "ticks"];

// What a clock that counts does: common practice, no published source.
describe.each(modes)("a clock driven at another rate, recording %s", (recording) => {
  it("gains a second a second at twice the rate", () => {
    const scenario = scenarioOf(
      quiet("{ at_s: 100.1, kind: drive_rate, output_hz: 8, for_s: 60 }"),
    );
    const taken = runChain(scenario, { recording });
    expect(between(taken.ticks, 0, 100.1)).toHaveLength(100);
    expect(between(taken.ticks, 100.1, 160.1)).toHaveLength(120);
    expect(taken.ticks.at(-1)!.timeError - taken.ticks[0]!.timeError).toBeCloseTo(60, 9);
    expect(taken.displacedSteps).toBeCloseTo(240, 5);
  });

  it("loses half a second a second at half the rate", () => {
    const scenario = scenarioOf(
      quiet("{ at_s: 100.1, kind: drive_rate, output_hz: 2, for_s: 60 }"),
    );
    const taken = runChain(scenario, { recording });
    expect(between(taken.ticks, 100.1, 160.1)).toHaveLength(30);
    expect(taken.ticks.at(-1)!.timeError - taken.ticks[0]!.timeError).toBeCloseTo(-30, 9);
    expect(taken.displacedSteps).toBeCloseTo(-120, 5);
  });

  it("stands still without drive and fallback, and goes on at the next burst", () => {
    const scenario = scenarioOf(quiet("{ at_s: 100.1, kind: drive_off, for_s: 30 }"));
    const taken = runChain(scenario, { recording });
    expect(between(taken.ticks, 100.1, 130.1)).toHaveLength(0);
    expect(taken.displacedSteps).toBe(-120);
    expect(taken.slips.map((slip) => slip.cause)).toEqual(["drive_off"]);
    expect(taken.ticks.at(-1)!.timeError - taken.ticks[0]!.timeError).toBeCloseTo(-30, 9);
  });

  it("stands still while the tone is gone, and goes on when it is back", () => {
    const scenario = scenarioOf(quiet("{ at_s: 100.1, kind: amplitude, factor: 0, for_s: 30 }"));
    const taken = runChain(scenario, { recording });
    expect(between(taken.ticks, 100.1, 130.1)).toHaveLength(0);
    expect(between(taken.ticks, 130.1, 400)).toHaveLength(269);
    expect(taken.displacedSteps).toBe(-120);
    expect(taken.slips).toHaveLength(120);
    expect(taken.slips.every((slip) => slip.cause === "missed")).toBe(true);
  });

  it("takes an extra step in order, also between a burst and its step", () => {
    // The burst at 100 s is the fourth of its tick; the extra step comes before it is detected.
    const scenario = scenarioOf(quiet("{ at_s: 100.002, kind: extra_step }"));
    const { ticks } = runChain(scenario, { recording });
    const delay = ticks[0]!.at - 1;
    expect(ticks[99]!.at).toBeCloseTo(100.002, 12);
    expect(ticks[100]!.at).toBeCloseTo(100.75 + delay, 9);
  });

  it("hesitates for after_s, goes on at the fallback's rate, and locks at the next good burst", () => {
    const scenario = scenarioOf(quiet("{ at_s: 100.6, kind: drive_off, for_s: 100 }", fallback));
    const { ticks, displacedSteps } = runChain(scenario, { recording });
    const delay = ticks[0]!.at - 1;
    expect(delay).toBeGreaterThan(0.001);
    expect(delay).toBeLessThan(0.06);
    const own = ticks.filter((tick) => tick.isFallback);
    // The last step before the silence was that of the burst at 100.5 s.
    const takeOver = 100.5 + delay + 1.2;
    own.forEach((tick, i) => {
      expect(tick.at).toBeCloseTo(takeOver + i / (1 - 4e-5), 9);
    });
    // The drive is back at 200.6 s: the burst at 200.75 s is the first of four that make the next tick.
    expect(own).toHaveLength(Math.floor((200.75 + delay - takeOver) * (1 - 4e-5)) + 1);
    const after = ticks.filter((tick) => tick.at > own.at(-1)!.at);
    expect(after[0]!.at).toBeCloseTo(201.5 + delay, 9);
    expect(after[0]!.isFallback).toBe(false);
    expect(ticks.map((tick) => tick.tick)).toEqual(ticks.map((_, i) => i + 1));
    // At 201.5 s the dial shows one tick more than the fallback had given it.
    const shown = 100 + own.length + 1;
    expect(displacedSteps).toBeCloseTo(4 * (shown - 201.5), 9);
  });

  it("lets a drive slower than the watchdog alternate with the fallback", () => {
    // A burst every 2 s, a watchdog of 1.2 s: one tick of the fallback between two bursts.
    const scenario = scenarioOf(
      quiet("{ at_s: 100.1, kind: drive_rate, output_hz: 0.5, for_s: 40 }", fallback),
    );
    const { ticks } = runChain(scenario, { recording });
    const own = ticks.filter((tick) => tick.isFallback);
    expect(Math.abs(own.length - 20)).toBeLessThanOrEqual(1);
    // The first of them comes in the middle of a stretched period.
    for (let i = 2; i < own.length - 1; i++) {
      expect(own[i]!.at - own[i - 1]!.at).toBeCloseTo(2, 6);
    }
  });
});

describe("a clock driven at another rate, recording lazy", () => {
  it.each(["drive_rate, output_hz: 8", "drive_rate, output_hz: 2", "drive_off"])(
    "comes to the same readings: %s",
    (kind) => {
      const text = quiet(`{ at_s: 100.6, kind: ${kind}, for_s: 60 }`, fallback);
      const lazy = runChain(scenarioOf(text), { recording: "lazy" });
      const ticks = runChain(scenarioOf(text), { recording: "ticks" });
      expect(lazy.count).toBe(ticks.count);
      expect(lazy.displacedSteps).toBeCloseTo(ticks.displacedSteps, 9);
      expect(lazy.readings).toHaveLength(ticks.readings.length);
      lazy.readings.forEach((reading, i) => {
        expect(reading.interval).toBeCloseTo(ticks.readings[i]!.interval, 12);
      });
    },
  );
});
