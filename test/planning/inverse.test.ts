import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  fewestReadings,
  halfWidth,
  lengthOf,
  readingsIn,
  runLength,
  type Strategy,
  strategies,
} from "../../src/planning/index.ts";
import type { Scenario } from "../../src/scenario/index.ts";
import { parseScenario } from "../../src/scenario/index.ts";

/** A level anywhere in some decades, or none at all. */
const level = (from: number, to: number) =>
  fc.option(
    fc.double({ min: from, max: to, noNaN: true }).map((power) => 10 ** power),
    { nil: 0 },
  );

const noise = fc.record({
  white_pm_rms_s: level(-11, -4),
  flicker_pm_adev_1s: level(-11, -4),
  white_fm_adev_1s: level(-11, -6),
  flicker_fm_adev: level(-13, -8),
  random_walk_fm_adev_1s: level(-16, -10),
});

const synthesizer = fc.record({
  output_hz: fc.constant(5),
  setting_step_hz: fc.constant(0),
  loop: fc.record({
    natural_hz: fc.double({ min: 0.05, max: 3, noNaN: true }),
    damping: fc.double({ min: 0.3, max: 2, noNaN: true }),
  }),
  noise: fc.record({ white_fm_adev_1s: level(-9, -5), flicker_fm_adev: level(-9, -6) }),
  spurs: fc.array(
    fc.record({
      frequency_hz: fc.double({ min: 1e-6, max: 2, noNaN: true }),
      time_amplitude_s: fc.constantFrom(1e-8, 1e-6, 1e-5),
    }),
    { maxLength: 2 },
  ),
});

const counter = fc.record({
  input: fc.constant("clock"),
  technique: fc.constantFrom("reciprocal", "direct", "time_interval"),
  gate_s: fc.constantFrom<number | "single">("single", 3.3, 10, 47.5),
  gate_max_s: fc.constant(900),
  dead_time_s: fc.constantFrom(0, 0.4, 3.7),
  resolution_s: level(-9, -4),
  trigger_noise_s: level(-9, -4),
  timebase: fc.record({ noise: fc.record({ white_fm_adev_1s: level(-11, -8) }) }),
});

/** Chains without a receiver, which are quick to plan for: a divided oscillator, or a loop behind one. */
const scenarios = fc
  .record({ noise, synthesizer: fc.option(synthesizer, { nil: undefined }), counter })
  .map(({ noise: levels, synthesizer: loop, counter: bench }) => {
    const isStamping = bench.technique === "time_interval";
    // A time-interval counter starts on whole seconds and has no dead time; a direct one times no single period.
    let gate = bench.gate_s;
    if (typeof gate === "number" && isStamping) gate = Math.round(gate);
    if (gate === "single" && bench.technique === "direct") gate = 10;
    const deadTime = isStamping ? 0 : bench.dead_time_s;
    const text = JSON.stringify({
      length_s: 4000,
      clock: { tick_hz: 1 },
      reference: { nominal_hz: 1e6, noise: levels },
      ...(loop === undefined ? {} : { synthesizer: loop }),
      counter: {
        ...bench,
        input: loop === undefined ? "clock" : "synthesizer",
        gate_s: gate,
        dead_time_s: deadTime,
      },
    });
    return parseScenario(text, "random.json").scenario;
  });

const half = (scenario: Scenario, way: Strategy, readings: number) =>
  halfWidth(scenario, way, readings, 0.95);

describe("the run length for an accuracy", () => {
  it("is the inverse of the accuracy for a length, over random scenarios", () => {
    let compared = 0;
    fc.assert(
      fc.property(scenarios, fc.double({ min: 2, max: 7, noNaN: true }), (scenario, power) => {
        for (const way of strategies(scenario)) {
          if (way.obstacle !== null) continue;
          const first = fewestReadings(way.timing);
          const readings = Math.max(first, readingsIn(way.timing, 10 ** power));
          const within = half(scenario, way, readings);
          if (!(within > 1e-14)) continue;
          const found = runLength(scenario, way, within * (1 + 1e-9));
          // A line may wax again in a longer run, so that a source that wanders gets there for a while only.
          const hasLines = way.terms.some(({ shape }) => shape.type === "lines");
          if (!found.reachable && hasLines) continue;
          expect(found.reachable).toBe(true);
          const reached = half(scenario, way, found.readings);
          expect(reached).toBeLessThanOrEqual(within * (1 + 2e-9));
          expect(readingsIn(way.timing, lengthOf(way.timing, found.readings))).toBe(found.readings);
          if (found.readings > first) {
            expect(half(scenario, way, found.readings - 1)).toBeGreaterThan(within);
          }
          // One reading more or less is a part of a per cent then, unless a line cycles from one to the next.
          if (found.readings > 300 && half(scenario, way, found.readings - 1) < 1.01 * within) {
            expect(reached / within).toBeGreaterThan(0.99);
            compared++;
          }
        }
      }),
      { numRuns: 60, seed: 20 },
    );
    expect(compared).toBeGreaterThan(100);
  });
});
