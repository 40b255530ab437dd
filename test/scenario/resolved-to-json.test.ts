import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Scenario } from "../../src/scenario/index.ts";
import { parseScenario, resolvedToJson } from "../../src/scenario/index.ts";
import { demo, demos, sampleWith } from "./sample.ts";

const again = (scenario: Scenario): Scenario =>
  parseScenario(JSON.stringify(resolvedToJson(scenario)), "again.json").scenario;

describe("resolvedToJson", () => {
  it.each(demos)("gives back %s, bit for bit", (name) => {
    const { scenario } = parseScenario(demo(name), name);
    expect(again(scenario)).toStrictEqual(scenario);
  });

  it("gives back what has every kind of disturbance and every optional key", () => {
    const { scenario } = sampleWith(
      "recording=lazy",
      "counter.gate_max_s=1000",
      "counter.display_digits=9",
      "counter.timebase=reference",
      "reference.noise={ flicker_pm_adev_1s: 1e-12, h: { h2: 1e-26 }, bandwidth_hz: 1e4 }",
      "reference.temperature={ linear_per_k: -1e-9, parabolic_per_k2: -3e-8 }",
      "receiver.leak=false",
      "disturbances=[{kind: amplitude, at_s: 1, for_s: 2, factor: 0.5}, {kind: drive_rate, at_s: 2, for_s: 3, output_hz: 4}, {kind: drive_off, at_s: 3, for_s: 1}, {kind: missed_step, at_s: 4}, {kind: extra_step, at_s: 5}, {kind: missed_edge, at_s: 6}, {kind: extra_edge, at_s: 7}]",
    );
    expect(again(scenario)).toStrictEqual(scenario);
  });

  it("gives back any noise levels, bit for bit", () => {
    // Small enough to leave a clock; the band is stretched below.
    const level = fc.double({ min: 0, max: 1e-4, noNaN: true });
    const key = fc.constantFrom(
      "white_pm_rms_s",
      "flicker_pm_adev_1s",
      "white_fm_adev_1s",
      "flicker_fm_adev",
      "random_walk_fm_adev_1s",
      "bandwidth_hz",
    );
    fc.assert(
      fc.property(fc.dictionary(key, level), (noise) => {
        if (noise.bandwidth_hz !== undefined) noise.bandwidth_hz = 0.6 + 1e4 * noise.bandwidth_hz;
        const { scenario } = sampleWith(`reference.noise=${JSON.stringify(noise)}`);
        expect(again(scenario)).toStrictEqual(scenario);
      }),
      { seed: 1139, numRuns: 50 },
    );
  });

  it("writes every default out", () => {
    const json = resolvedToJson(sampleWith().scenario);
    expect(json).toMatchObject({
      environment: { daily_amplitude_k: 0 },
      counter: { input: "clock", timebase: { uncertainty: 3e-9 } },
      receiver: { leak: true, fallback: { noise: { bandwidth_hz: 0.5 } } },
    });
  });
});
