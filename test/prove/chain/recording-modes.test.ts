import { describe, expect, it } from "vitest";
import type { Recording } from "../../../src/scenario/index.ts";
import { demo, runChain } from "../../chain/run-chain.ts";
import { allowed, ensemble, names } from "./reading-statistics.ts";

// Three ways to compute one and the same chain: exact law, the estimates differ by chance alone.

const modes: readonly Recording[] = ["bursts", "ticks", "lazy"];
const runs = 40;
const cases: readonly [string, string, readonly string[]][] = [
  ["the observatory", "observatory", ["length_s=250", "counter.gate_s=2"]],
  [
    "the observatory with drops, extra steps, missed edges and a weak tone",
    "observatory",
    [
      "length_s=250",
      "counter.gate_s=2",
      "drive.drop_probability=0.02",
      "receiver.extra_step_rate_hz=0.02",
      "counter.missed_edge_probability=0.01",
      "counter.extra_edge_probability=0.01",
      "disturbances=[{at_s: 60.33, kind: amplitude, factor: 0.62, for_s: 30}, {at_s: 100, kind: missed_edge}, {at_s: 150.2, kind: drive_off, for_s: 11}]",
    ],
  ],
  [
    "a receiver that remembers the burst before, a third of the bursts dropped",
    "observatory",
    [
      "length_s=250",
      "counter.gate_s=2",
      "drive.drop_probability=0.33",
      "receiver.time_constant_s=0.04",
      "receiver.threshold_v=3",
      "receiver.fallback.after_s=6",
    ],
  ],
  [
    "the tide gauge",
    "harbour-tide-gauge",
    ["length_s=900", "counter.gate_s=10", "counter.dead_time_s=3"],
  ],
  [
    "the station dial",
    "station-dial",
    [
      "length_s=400",
      "counter.gate_s=2",
      "disturbances=[{at_s: 60.1, kind: drive_off, for_s: 30.6}, {at_s: 150.1, kind: drive_rate, output_hz: 8, for_s: 20}, {at_s: 220.1, kind: drive_rate, output_hz: 2, for_s: 20}, {at_s: 300.1, kind: missed_step}]",
    ],
  ],
  ["its own oscillator", "observatory-own-oscillator", ["length_s=900", "counter.gate_s=5"]],
  ["nothing but timing noise", "school-laboratory", ["length_s=400", "counter.gate_s=3"]],
  [
    "nothing but timing noise, counted directly",
    "school-laboratory",
    ["length_s=400", "counter.gate_s=3.3", "counter.technique=direct", "counter.dead_time_s=1"],
  ],
];

describe("the recording modes agree in distribution", () => {
  it.each(cases)(
    "%s",
    (_name, file, sets) => {
      const scenario = demo(file, sets);
      const used = scenario.drive === null ? modes.slice(1) : modes;
      const [first, ...others] = used.map((mode) => ensemble(scenario, { recording: mode }, runs));
      for (const other of others) {
        names.forEach((name, k) => {
          const a = first![k]!;
          const b = other[k]!;
          const limit = allowed * Math.hypot(a.error, b.error) + 1e-9 * Math.abs(a.mean) + 1e-15;
          expect(Math.abs(a.mean - b.mean), `${name}: ${a.mean} and ${b.mean}`).toBeLessThan(limit);
        });
      }
    },
    120_000,
  );

  it("in the jitter that charge left from bursts before makes, where some of these are dropped", () => {
    const scenario = demo("observatory", [
      "length_s=400",
      "counter.gate_s=2",
      "drive.amplitude_noise=0.002",
      "drive.drop_probability=0.33",
      "receiver={rectifier: full, time_constant_s: 0.05, threshold_v: 3, noise_v: 0.02, steps_per_tick: 5}",
    ]);
    // Lost steps are whole periods of the bursts: what is left is jitter.
    const step = 1 / (5 * scenario.clock.tickHz);
    const deviations = modes.map((recording) => {
      const squares: number[] = [];
      for (let i = 0; i < 20; i++) {
        const { readings } = runChain(scenario, { recording, seed: `${recording}-${i}` });
        for (const { timeError } of readings) {
          squares.push((timeError - Math.round(timeError / step) * step) ** 2);
        }
      }
      return Math.sqrt(squares.reduce((a, b) => a + b, 0) / squares.length);
    });
    // Some 2700 readings of about ten thousand bursts: five standard deviations are below 10 %.
    for (const deviation of deviations) {
      expect(Math.abs(deviation / deviations[0]! - 1)).toBeLessThan(0.1);
    }
  });
});
