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
describe("numbers that people who measure clocks know by heart", () => {
  it("1 Hz has to be counted for ten million seconds for the cycles 10 MHz gives in one", () => {
    expect(counted(10e6, 1, "reference")).toBe(1e7);
    expect(counted(1, 1e7, "clock")).toBe(1e7);
  });

  it("a period of 0.9998 s is about 17 s a day fast", () => {
    const { readings } = runChain(
      scenarioOf(`
title: fast
length_s: 20
clock: { tick_hz: 1 }
reference: { nominal_hz: 32768, fractional_offset: ${1 / 0.9998 - 1} }
counter: { input: clock, technique: reciprocal, gate_s: single, timebase: {} }`),
    );
    for (const { cycles, interval } of readings) {
      expect(interval).toBeCloseTo(0.9998, 12);
      expect((cycles - interval) / interval).toBeCloseTo(1 / 0.9998 - 1, 12);
    }
    const { cycles, interval } = readings[0]!;
    expect(rateWithin((cycles - interval) / interval, 0.1 / 86400)).toBe("+17.28 ± 0.10 s/day");
  });

  it("4e-8 is about 3.5 ms a day", () => {
    expect(rateText(4e-8)).toBe("+3.46 ms/day");
    expect(parseAccuracy("3.5 ms/day") / 4e-8).toBeCloseTo(1, 1);
  });

  it("one second in 3200 years is about 1e-11", () => {
    expect(parseAccuracy("1 s/year") / 3200 / 1e-11).toBeCloseTo(1, 1);
  });
});
