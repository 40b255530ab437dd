import { describe, expect, it } from "vitest";
import { allDevices } from "../../../src/chain/index.ts";
import { demo, runChain } from "../../chain/run-chain.ts";
import { allowed, ensemble, names } from "./reading-statistics.ts";

// The plain chain, every burst stepped through every stage, is what all that makes runs faster is held to.

const none = Object.fromEntries(Object.keys(allDevices).map((device) => [device, false]));
/** Each alone; rows give the same bits. */
const off = ["strides", "delayLaw", "leftOut"].map(
  (device) => [device, { [device]: false }] as const,
);

/** Every burst, with the bursts after the 5000th by their law where that is on. */
const clock = demo("observatory", ["length_s=2500", "counter.gate_s=2"]);
/** The loop alone, on a reference so poor that its ladders show, read back to back. */
const line = demo("synthesizer-direct", [
  "length_s=1500",
  "reference.noise.flicker_fm_adev=1e-7",
  "reference.noise.white_fm_adev_1s=1e-7",
  "synthesizer.noise.white_fm_adev_1s=1e-7",
  "synthesizer.noise.flicker_fm_adev=1e-6",
  "counter.gate_s=2",
  "counter.dead_time_s=0",
  "counter.technique=reciprocal",
  "counter.trigger_noise_s=1e-9",
  "counter.resolution_s=1e-9",
]);

describe("the plain chain", () => {
  it("gives the same bits with and without rows", () => {
    const takes = ["ticks", "bursts"] as const;
    const all = runChain(clock, { recording: "bursts", takes });
    const singly = runChain(clock, { recording: "bursts", takes, devices: { rows: false } });
    expect(all.bursts.length).toBeGreaterThan(10_000);
    expect(singly).toEqual(all);
  });

  const runs = 30;
  const plain = new Map(
    [clock, line].map((scenario) => [
      scenario,
      ensemble(scenario, { recording: "bursts", devices: none }, runs),
    ]),
  );

  it.each([...off, ["not one", {}] as const])(
    "has readings of the same law: %s off",
    (_, devices) => {
      for (const scenario of [clock, line]) {
        const found = ensemble(scenario, { recording: "bursts", devices }, runs);
        found.forEach(({ mean, error }, k) => {
          const expected = plain.get(scenario)![k]!;
          const limit =
            allowed * Math.hypot(error, expected.error) + 1e-12 * Math.abs(expected.mean);
          expect(Math.abs(mean - expected.mean), names[k]).toBeLessThanOrEqual(limit);
        });
      }
    },
  );

  it("has other draws where a device is off, but for rows: each is a real switch", () => {
    const readingsWith = (devices: object) =>
      runChain(line, { recording: "bursts", devices, takes: [] }).readings;
    const all = readingsWith({});
    expect(readingsWith({ strides: false })).not.toEqual(all);
    expect(readingsWith({ leftOut: false })).not.toEqual(all);
    const law = runChain(clock, { recording: "bursts", devices: { delayLaw: false }, takes: [] });
    expect(law.readings).not.toEqual(runChain(clock, { recording: "bursts", takes: [] }).readings);
  });
});
