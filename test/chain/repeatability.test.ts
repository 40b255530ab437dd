import { describe, expect, it } from "vitest";
import type { Recording } from "../../src/scenario/index.ts";
import { demo, runChain } from "./run-chain.ts";

// Exact laws of the program itself: equality to the last bit, no outside source.

const length = 600;
/** A chain with everything random in it: drops, extra steps, jitter, a line that fails. */
const busy = [
  "drive.drop_probability=0.01",
  "receiver.extra_step_rate_hz=0.01",
  "disturbances.0.at_s=200",
];
const modes: readonly Recording[] = ["bursts", "ticks", "lazy"];

describe.each(modes)("a run, recording %s", (recording) => {
  it("is the same for the same seed, and another for another", () => {
    const scenario = demo("station-dial", busy);
    const run = (seed: string) => runChain(scenario, { recording, length, seed });
    const first = run("a");
    expect(run("a")).toEqual(first);
    expect(run("b").readings).not.toEqual(first.readings);
  });

  it("begins with the readings of a shorter one", () => {
    const scenario = demo("station-dial", [...busy, "counter.gate_s=1"]);
    const run = (seconds: number) => runChain(scenario, { recording, length: seconds }).readings;
    const long = run(900);
    for (const seconds of [100.3, 333, 499.98, 600]) {
      const short = run(seconds);
      expect(short.length).toBeGreaterThan(seconds - 4 - 70);
      expect(short).toEqual(long.slice(0, short.length));
    }
  });

  it("ends at the same reading whether its length or their number ends it", () => {
    const scenario = demo("observatory", ["counter.gate_s=5"]);
    const byLength = runChain(scenario, { recording, length: 300 }).readings;
    const byNumber = runChain(scenario, { recording, readings: 40 }).readings;
    expect(byNumber).toEqual(byLength.slice(0, 40));
  });
});

describe("outputs", () => {
  it("change no reading within a recording mode", () => {
    const scenario = demo("station-dial", busy);
    const plain = runChain(scenario, { recording: "bursts", length, takes: [] });
    const all = runChain(scenario, { recording: "bursts", length, takes: ["ticks", "bursts"] });
    expect(all.readings).toEqual(plain.readings);
    expect(all.ticks.length).toBeGreaterThan(500);
    expect(all.bursts.length).toBeGreaterThan(1000);
  });
});

describe.each(["ticks", "bursts"] as const)("ticks, recording %s", (recording) => {
  const changes: readonly (readonly string[])[] = [
    ["counter.gate_s=7"],
    ["counter.trigger_noise_s=1e-3", "counter.missed_edge_probability=0.1"],
    ["counter.technique=direct", "counter.gate_s=10"],
    ["counter.technique=reciprocal", "counter.timebase={noise: {white_fm_adev_1s: 1e-9}}"],
    ["counter.input=synthesizer", "counter.technique=reciprocal"],
    ["counter.input=reference", "counter.technique=reciprocal"],
  ];
  const ticksWith = (sets: readonly string[]) =>
    runChain(demo("station-dial", [...busy, ...sets]), { recording, length, takes: ["ticks"] })
      .ticks;
  const expected = ticksWith([]);

  it.each(changes)("are the same with another counter: %s", (...sets) => {
    expect(ticksWith(sets)).toEqual(expected);
  });
});

describe("each stage draws from a stream of its own", () => {
  const bursts = (sets: readonly string[]) =>
    runChain(demo("observatory", sets), { recording: "bursts", length: 60, takes: ["bursts"] })
      .bursts;
  const plain = bursts([]);

  it("so that another receiver leaves the synthesizer's edges as they are", () => {
    const other = bursts(["receiver.noise_v=0.2", "drive.amplitude_noise=0.03"]);
    expect(other.map((b) => b.startError)).toEqual(plain.map((b) => b.startError));
    expect(other.map((b) => b.delay)).not.toEqual(plain.map((b) => b.delay));
  });

  it("so that drops leave the edges as they are", () => {
    const other = bursts(["drive.drop_probability=0.2"]);
    expect(other.map((b) => b.startError)).toEqual(plain.map((b) => b.startError));
  });
});
