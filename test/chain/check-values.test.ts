import { describe, expect, it } from "vitest";
import { parseAccuracy } from "../../src/planning/index.ts";
import { rateText, rateWithin } from "../../src/view/words/index.ts";
import { runChain, scenarioOf } from "./run-chain.ts";

const counted = (nominalHz: number, gate: number, input: string) =>
  runChain(
    scenarioOf(`
title: count
length_s: ${2.5 * gate}
clock: { tick_hz: 1 }
reference: { nominal_hz: ${nominalHz} }
counter: { input: ${input}, technique: direct, gate_s: ${gate}, timebase: reference }`),
    { recording: "lazy" },
  ).readings[0]!.cycles;

// Common practice, no published source.
describe("rates and counts", () => {
  it("1 Hz counted for a million seconds gives the cycles that 1 MHz gives in one", () => {
    expect(counted(1e6, 1, "reference")).toBe(1e6);
    expect(counted(1, 1e6, "clock")).toBe(1e6);
  });

  it("a period of 0.9995 s is about 43 s a day fast", () => {
    const { readings } = runChain(
      scenarioOf(`
title: fast
length_s: 20
clock: { tick_hz: 1 }
reference: { nominal_hz: 32768, fractional_offset: ${1 / 0.9995 - 1} }
counter: { input: clock, technique: reciprocal, gate_s: single, timebase: {} }`),
    );
    for (const { cycles, interval } of readings) {
      expect(interval).toBeCloseTo(0.9995, 12);
      expect((cycles - interval) / interval).toBeCloseTo(1 / 0.9995 - 1, 12);
    }
    const { cycles, interval } = readings[0]!;
    expect(rateWithin((cycles - interval) / interval, 0.1 / 86400)).toBe("+43.22 ± 0.10 s/day");
  });

  it("1e-8 is 0.864 ms a day", () => {
    expect(rateText(1e-8)).toBe("+0.864 ms/day");
    expect(parseAccuracy("0.864 ms/day") / 1e-8).toBeCloseTo(1, 12);
  });

  it("one second in a thousand years is about 3e-11", () => {
    expect(parseAccuracy("1 s/year") / 1000 / 3.17e-11).toBeCloseTo(1, 2);
  });
});
