import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Disturbance, Recording, Scenario } from "../../src/scenario/index.ts";
import { runChain, scenarioOf, type Taken } from "./run-chain.ts";

// Counting, throughout: common practice, no published source.

const length = 60;
const text = (receiver = "", drive = "") => `
title: slips
length_s: ${length}
clock: { tick_hz: 1 }
reference: { nominal_hz: 10e6, fractional_offset: 1e-6 }
synthesizer: { output_hz: 4, loop: { natural_hz: 1, damping: 0.7 }, noise: { white_fm_adev_1s: 3e-6 } }
drive: { carrier_hz: 1210, burst_s: 0.06, amplitude_v: 12, amplitude_noise: 0.02${drive} }
receiver: { rectifier: full, time_constant_s: 0.012, threshold_v: 4.2, noise_v: 0.12, steps_per_tick: 4${receiver} }
counter: { input: clock, technique: reciprocal, gate_s: 5, timebase: reference }
`;
const fallback =
  ", fallback: { after_s: 1.2, fractional_offset: -4e-5, noise: { white_fm_adev_1s: 1e-8 } }";

const kindOf = (kind: Disturbance["kind"]) => fc.constant(kind);
/** Moments on the grid of bursts, between them, at the start and at the end. */
const moment = fc.oneof(
  fc.constantFrom(0, 0.01, 0.25, 30, 59.99, length, 80),
  fc.double({ min: 0, max: length, noNaN: true }),
);
const duration = fc.oneof(
  fc.constantFrom(1e-3, 0.05, 0.25, 1.2, 100),
  fc.double({ min: 1e-3, max: 20, noNaN: true }),
);
const disturbance = fc.oneof(
  fc.record({ kind: kindOf("drive_off"), at: moment, for: duration }),
  fc.record({
    kind: kindOf("drive_rate"),
    at: moment,
    for: duration,
    outputHz: fc.constantFrom(0.5, 2, 3.7, 8),
  }),
  fc.record({
    kind: kindOf("amplitude"),
    at: moment,
    for: duration,
    factor: fc.constantFrom(0, 0.56, 2),
  }),
  fc.record({ kind: kindOf("missed_step"), at: moment }),
  fc.record({ kind: kindOf("extra_step"), at: moment }),
  fc.record({ kind: kindOf("missed_edge"), at: moment }),
  fc.record({ kind: kindOf("extra_edge"), at: moment }),
) as fc.Arbitrary<Disturbance>;

function checkBooks(scenario: Scenario, taken: Taken): void {
  const total = taken.slips.reduce((sum, slip) => sum + slip.steps, 0);
  expect(total).toBeCloseTo(taken.displacedSteps, 5);
  // Steps the drive would have given, and what the dial shows: the rest of a tick is under way.
  const due = 4 * length * (1 + 1e-6);
  const missed = scenario.disturbances.filter((d) => d.kind === "missed_step").length;
  const underWay = due + taken.displacedSteps - 4 * taken.count;
  expect(underWay).toBeGreaterThan(-missed - 1.1);
  expect(underWay).toBeLessThan(5.1);
  for (let i = 1; i < taken.ticks.length; i++) {
    expect(taken.ticks[i]!.at).toBeGreaterThan(taken.ticks[i - 1]!.at);
    expect(taken.ticks[i]!.tick).toBe(taken.ticks[i - 1]!.tick + 1);
  }
  if (taken.ticks.length > 0) expect(taken.ticks.at(-1)!.tick).toBe(taken.count);
  for (const reading of taken.readings) expect(reading.interval).toBeGreaterThan(0);
}

const modes: readonly Recording[] = ["bursts", "ticks", "lazy"];

describe.each(modes)("slips and displacement agree with the dial, recording %s", (recording) => {
  it.each([
    ["with a fallback", fallback],
    ["without a fallback", ""],
    ["with extra steps", `${fallback}, extra_step_rate_hz: 0.2`],
  ])(
    "after any disturbances, %s",
    (_name, receiver) => {
      const scenario = scenarioOf(text(receiver), []);
      fc.assert(
        fc.property(fc.array(disturbance, { maxLength: 6 }), fc.nat(1000), (list, seed) => {
          const disturbances = [...list].sort((a, b) => a.at - b.at);
          const disturbed = { ...scenario, disturbances };
          checkBooks(disturbed, runChain(disturbed, { recording, seed: String(seed) }));
        }),
        { seed: 7, numRuns: 25 },
      );
    },
    60_000,
  );

  it("with bursts dropped", () => {
    const scenario = scenarioOf(text(fallback, ", drop_probability: 0.2"));
    const taken = runChain(scenario, { recording, seed: "drops" });
    checkBooks(scenario, taken);
    // Binomial, 240 bursts: mean 48, five standard deviations.
    expect(Math.abs(taken.displacedSteps + 48)).toBeLessThan(5 * Math.sqrt(240 * 0.2 * 0.8));
  });

  it.each([
    ["missed_step", -1],
    ["extra_step", 1],
  ])("%s displaces the dial by one step", (kind, steps) => {
    const scenario = scenarioOf(`${text()}disturbances: [{ at_s: 20.1, kind: ${kind} }]`);
    const taken = runChain(scenario, { recording });
    expect(taken.slips).toEqual([{ at: 20.1, steps, cause: kind }]);
    expect(taken.displacedSteps).toBe(steps);
    checkBooks(scenario, taken);
  });

  it.each([
    ["missed_step", 59],
    ["extra_step", 61],
  ])("of a clock that divides its own oscillator: %s", (kind, ticks) => {
    const scenario = scenarioOf(`
title: divider
length_s: 60.5
clock: { tick_hz: 1 }
reference: { nominal_hz: 32768 }
counter: { input: clock, technique: direct, gate_s: 10, timebase: reference }
disturbances: [{ at_s: 20.1, kind: ${kind} }]`);
    const taken = runChain(scenario, { recording });
    expect(taken.count).toBe(ticks);
    const counted = taken.readings.map((reading) => reading.cycles);
    expect(counted.filter((cycles) => cycles !== 10)).toEqual([10 + ticks - 60]);
    if (recording !== "lazy") {
      expect(taken.ticks.map((tick) => tick.tick)).toEqual(
        Array.from({ length: ticks }, (_, i) => i + 1),
      );
    }
  });
});
