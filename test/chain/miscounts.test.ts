import { describe, expect, it } from "vitest";
import { mark } from "../../src/kernel/index.ts";
import { runChain, scenarioOf } from "./run-chain.ts";

/** A quiet clock of 1 Hz and whatever else a test asks for. */
const clock = (counter: string, more = "", bounce = "", length = 1000.5) =>
  scenarioOf(`
title: miscounts
length_s: ${length}
clock: { tick_hz: 1${bounce} }
reference: { nominal_hz: 32768 }
counter: { input: clock, timebase: {}, ${counter} }
${more}`);

const bounce = ", bounce: { count: 2, within_s: 0.01 }";
const cyclesOf = (scenario: ReturnType<typeof clock>, recording?: "lazy" | "ticks", seed = "m") =>
  runChain(scenario, { seed, takes: [], ...(recording && { recording }) }).readings.map(
    (reading) => reading.cycles,
  );

// Counting: common practice, no published source.
describe("contact bounce", () => {
  it("is counted without hold-off: three closures a tick", () => {
    const scenario = clock("technique: direct, gate_s: 10", "", bounce);
    for (const cycles of cyclesOf(scenario).slice(1)) {
      expect(Math.abs(cycles - 30)).toBeLessThanOrEqual(2);
    }
  });

  it.each(["lazy", "ticks"] as const)("is not counted with hold-off, recording %s", (recording) => {
    for (const technique of ["direct", "reciprocal"]) {
      const scenario = clock(`technique: ${technique}, gate_s: 10, holdoff_s: 0.02`, "", bounce);
      const cycles = cyclesOf(scenario, recording);
      expect(cycles.length).toBeGreaterThan(90);
      // The first gate of the direct technique may open before or after a tick.
      expect(cycles.slice(1)).toEqual(cycles.slice(1).map(() => 10));
    }
  });

  it("forces every tick to be looked at where no hold-off covers it", () => {
    const scenario = clock("technique: direct, gate_s: 10", "", bounce);
    expect(cyclesOf(scenario, "lazy")).toEqual(cyclesOf(scenario, "ticks"));
  });

  it("shortens single periods to the bounce", () => {
    const { readings } = runChain(clock("technique: reciprocal, gate_s: single", "", bounce));
    const short = readings.filter((reading) => reading.interval < 0.011);
    expect(Math.abs(short.length - 2000)).toBeLessThanOrEqual(4);
  });
});

describe("a hold-off longer than the period", () => {
  it.each(["lazy", "ticks"] as const)("hides every second tick, recording %s", (recording) => {
    const scenario = clock("technique: direct, gate_s: 10, holdoff_s: 1.5");
    const cycles = cyclesOf(scenario, recording);
    expect(cycles.slice(1)).toEqual(cycles.slice(1).map(() => 5));
  });

  it("hides edges of a stage watched directly too", () => {
    const scenario = scenarioOf(`
title: held
length_s: 1
clock: { tick_hz: 1 }
reference: { nominal_hz: 1000 }
counter: { input: reference, technique: direct, gate_s: 0.1, holdoff_s: 0.0015, timebase: {} }`);
    for (const cycles of cyclesOf(scenario).slice(1)) expect(cycles).toBe(50);
  });

  it.each(["reciprocal", "direct"])("jumps over them: 10 MHz for a day, %s", (technique) => {
    // An edge every 10 s and at most 100 ns is seen; to look at all of them would take days.
    const scenario = scenarioOf(`
title: held
length_s: 86400
clock: { tick_hz: 1 }
reference: { nominal_hz: 10e6, noise: { white_pm_rms_s: 1e-11, white_fm_adev_1s: 1e-11 } }
counter: { input: reference, technique: ${technique}, gate_s: 99.5, holdoff_s: 10 }`);
    const cycles = cyclesOf(scenario);
    expect(cycles.length).toBeGreaterThan(860);
    for (const count of cycles.slice(1)) expect([9, 10]).toContain(count);
    const mean = cycles.reduce((sum, count) => sum + count, 0) / cycles.length;
    // Reciprocal: the stop edge is the first one seen after 99.5 s, the tenth. Direct: 99.5 s hold 9.95 on average.
    expect(mean).toBeCloseTo(technique === "direct" ? 9.95 : 10, 1);
  });
});

describe("an edge missed or counted twice by the counter", () => {
  it.each(["lazy", "ticks"] as const)(
    "shifts the count of its reading, recording %s",
    (recording) => {
      const events =
        "disturbances: [{ at_s: 203.5, kind: missed_edge }, { at_s: 203.5, kind: missed_edge }, { at_s: 503.5, kind: extra_edge }]";
      const scenario = clock("technique: reciprocal, gate_s: 50", events);
      const { readings } = runChain(scenario, { recording, takes: [] });
      const miscounted = readings.filter((reading) => reading.cycles !== 50);
      expect(
        miscounted.map((reading) => [reading.start, reading.cycles, reading.interval]),
      ).toEqual([
        [201, 48, 50],
        [501, 51, 50],
      ]);
      expect(miscounted.map((reading) => reading.marks)).toEqual([mark.missedEdge, mark.extraEdge]);
    },
  );

  it.each(["lazy", "ticks"] as const)(
    "moves the stop edge on where it is the stop edge, recording %s",
    (recording) => {
      const events = "disturbances: [{ at_s: 200.5, kind: missed_edge }]";
      const scenario = clock("technique: reciprocal, gate_s: 50", events);
      const { readings } = runChain(scenario, { recording, takes: [] });
      expect(readings[3]).toMatchObject({ start: 151, cycles: 50, interval: 51 });
    },
  );

  it.each(["lazy", "ticks"] as const)(
    "has the mean and variance of a binomial count, recording %s",
    (recording) => {
      const p = 0.1;
      const scenario = clock(
        `technique: direct, gate_s: 50, missed_edge_probability: ${p}, extra_edge_probability: 0.02`,
        "",
        "",
        100_050,
      );
      const cycles = cyclesOf(scenario, recording);
      const n = cycles.length;
      expect(n).toBeGreaterThan(1990);
      const mean = cycles.reduce((a, b) => a + b, 0) / n;
      const variance = cycles.reduce((sum, c) => sum + (c - mean) ** 2, 0) / (n - 1);
      // Each of 50 edges counts 1 − Bernoulli(0.1) + Bernoulli(0.02).
      const expected = 50 * (1 - p + 0.02);
      const spread = 50 * (p * (1 - p) + 0.02 * 0.98);
      // Four standard deviations: of the mean σ/√n, of the variance σ²·√(2/n).
      expect(Math.abs(mean - expected)).toBeLessThan(4 * Math.sqrt(spread / n));
      expect(Math.abs(variance - spread)).toBeLessThan(4 * spread * Math.sqrt(2 / n));
    },
  );
});
