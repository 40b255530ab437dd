import { describe, expect, it } from "vitest";
import { NoisePosterior, OnlineBank, toEvents } from "../../src/noise-model/index.ts";
import { readingsOf } from "../prove/noise-model/coverage.ts";
import { Deviates, makeRecord } from "../prove/noise-model/generators.ts";

const { stamps } = makeRecord(128, { pm: 1, wfm: 0.05, ffm: 0, rw: 0 }, new Deviates(5));
const record = readingsOf(stamps, "gaps");
const at = (i: number) => ({
  length: record.length[i]!,
  gain: record.gain[i]!,
  gap: record.gap[i]!,
  gapGain: record.gapGain[i]!,
});

describe("OnlineBank", () => {
  it("says after a grid of its own what the posterior of the whole says", () => {
    const bank = new OnlineBank();
    expect(bank.slopes()).toBeNull();
    for (let i = 0; i < 64; i++) bank.add(at(i));
    const part = {
      length: record.length.slice(0, 64),
      gain: record.gain.slice(0, 64),
      gap: record.gap.slice(0, 64),
      gapGain: record.gapGain.slice(0, 64),
    };
    const whole = new NoisePosterior(toEvents(part), {}, false);
    const { steady, overRun } = bank.slopes()!;
    const width = whole.overRun().high - whole.overRun().low;
    expect(Math.abs(overRun.low - whole.overRun().low)).toBeLessThan(0.02 * width);
    expect(Math.abs(overRun.high - whole.overRun().high)).toBeLessThan(0.02 * width);
    expect((steady.high - steady.low) / (whole.steady().high - whole.steady().low)).toBeCloseTo(
      1,
      1,
    );
  });

  it("goes on between grids as the posterior of the whole does", () => {
    const bank = new OnlineBank();
    for (let i = 0; i < 120; i++) bank.add(at(i));
    const part = {
      length: record.length.slice(0, 120),
      gain: record.gain.slice(0, 120),
      gap: record.gap.slice(0, 120),
      gapGain: record.gapGain.slice(0, 120),
    };
    const whole = new NoisePosterior(toEvents(part), {}, false).overRun();
    const { overRun } = bank.slopes()!;
    const width = whole.high - whole.low;
    expect(Math.abs(overRun.estimate - whole.estimate)).toBeLessThan(0.05 * width);
    expect((overRun.high - overRun.low) / width).toBeGreaterThan(0.85);
    expect((overRun.high - overRun.low) / width).toBeLessThan(1.15);
  });
});
