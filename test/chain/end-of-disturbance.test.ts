import { describe, expect, it } from "vitest";
import { outcome } from "../../src/chain/index.ts";
import { runChain, scenarioOf } from "./run-chain.ts";

/** Ten bursts a second, at whole tenths, from parts without noise. */
const chain = (disturbance: string) =>
  scenarioOf(`
title: tenths
length_s: 30
clock: { tick_hz: 2 }
reference: { nominal_hz: 10e6 }
synthesizer: { output_hz: 10, loop: { natural_hz: 1, damping: 0.7 } }
drive: { carrier_hz: 1210, burst_s: 0.05, amplitude_v: 12 }
receiver: { rectifier: full, time_constant_s: 0.008, threshold_v: 4.2, noise_v: 0, steps_per_tick: 5 }
counter: { input: clock, technique: reciprocal, gate_s: 2, timebase: reference }
disturbances: [${disturbance}]`);

// A disturbance lasts from its start, which is part of it, to its end, which is not: our own rule.
describe("an edge at the very moment of a disturbance", () => {
  // In binary some of these sums come out before the tenth, some after it.
  it.each([
    [20.1, 0.5],
    [20.3, 0.3],
    [20.2, 0.4],
    [19.7, 0.1],
    [0.1, 0.2],
    [0.7, 0.1],
    [16.4, 3.7],
  ])("is lost at its start and heard at its end: from %s s for %s s", (at, span) => {
    const { bursts } = runChain(chain(`{ at_s: ${at}, kind: drive_off, for_s: ${span} }`), {
      recording: "bursts",
      takes: ["bursts"],
    });
    const heard = new Set(bursts.map(({ burst }) => burst));
    const first = Math.round(10 * at);
    const end = Math.round(10 * at + 10 * span);
    const missing = Array.from({ length: 299 }, (_, i) => i + 1).filter((n) => !heard.has(n));
    expect(missing).toEqual(Array.from({ length: end - first }, (_, i) => first + i));
  });

  it.each([
    [20.1, 0.5],
    [20.3, 0.3],
  ])("has the amplitude before its start and from its end on: from %s s for %s s", (at, span) => {
    const { bursts } = runChain(
      chain(`{ at_s: ${at}, kind: amplitude, factor: 0.2, for_s: ${span} }`),
      { recording: "bursts", takes: ["bursts"] },
    );
    const missed = bursts.filter((burst) => burst.outcome === outcome.missed);
    const expected = Array.from(
      { length: Math.round(10 * span) },
      (_, i) => Math.round(10 * at) + i,
    );
    expect(missed.map(({ burst }) => burst)).toEqual(expected);
  });

  it.each([
    [20.1, 0.5],
    [20.3, 0.5],
  ])("is handed on once where the rate of a line changes at it: %s s, %s s", (at, span) => {
    const scenario = chain(`{ at_s: ${at}, kind: drive_rate, output_hz: 8, for_s: ${span} }`);
    const counter = { ...scenario.counter, input: "synthesizer", gate: "single" } as const;
    const { readings } = runChain({ ...scenario, counter }, { recording: "lazy", takes: [] });
    // Half a second holds four periods of 0.125 s in place of five of 0.1 s.
    const periods = readings.map(({ interval }) => Math.round(1000 * interval));
    expect(periods.filter((period) => period === 125)).toHaveLength(4);
    expect(periods.filter((period) => period === 100)).toHaveLength(periods.length - 4);
  });
});
