import { describe, expect, it } from "vitest";
import type { NoiseLevels } from "../../src/noise/index.ts";
import { type DialQuestion, dialAhead } from "../../src/planning/index.ts";

const silent: NoiseLevels = {
  whitePmRms: 0,
  h1: 0,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 0.5,
  flickerLongest: 1e8,
};
const question = (over: Partial<DialQuestion>): DialQuestion => ({
  rate: 0,
  standardUncertainty: 0,
  systematicBound: 0,
  runLength: 1e5,
  ahead: 1e5,
  levels: silent,
  confidence: 0.95,
  ...over,
});

describe("dialAhead", () => {
  it("is rate times time with the uncertainty of the rate times time", () => {
    // 4e-8 is about 3.5 ms a day (common practice, no published source): 103.68 ms in 30 days.
    const month = 30 * 86400;
    const dial = dialAhead(
      question({ rate: 4e-8, standardUncertainty: 1e-9, systematicBound: 1e-8, ahead: month }),
    );
    expect(dial.error).toBeCloseTo(0.10368, 12);
    expect(dial.standardUncertainty).toBeCloseTo(1e-9 * month, 15);
    // 1.959964 standard deviations at 95 %.
    expect(dial.interval[1]).toBeCloseTo(0.10368 + (1.959964e-9 + 1e-8) * month, 8);
    expect(dial.interval[0]).toBeCloseTo(0.10368 - (1.959964e-9 + 1e-8) * month, 8);
  });

  // With the time ahead equal to the run, the variance is twice the Allan variance of IEEE Std 1139:
  // h0/(2τ), 2·ln 2·h−1, (2π²/3)·τ·h−2. The flicker ladder keeps to it within 1 % from Tmin·72 to Tmax/24.
  it.each([
    ["white FM", { h0: 2e-20 }, 1e-20 / 1e5, 1e-12],
    ["flicker FM", { hMinus1: 1e-24 }, 2 * Math.LN2 * 1e-24, 0.01],
    ["random-walk FM", { hMinus2: 1e-30 }, ((2 * Math.PI ** 2) / 3) * 1e5 * 1e-30, 1e-12],
  ])("adds √2 times the Allan deviation of %s", (_, levels, allanVariance, tolerance) => {
    const dial = dialAhead(question({ levels: { ...silent, ...levels } }));
    const expected = 1e5 * Math.sqrt(2 * allanVariance);
    expect(Math.abs(dial.standardUncertainty / expected - 1)).toBeLessThan(tolerance);
  });

  it("keeps to that down to some periods of the end of the band, where white noise stands for what is faster", () => {
    // 80 T_min, T_min = 1/(2π·bandwidth): the white part is 1.7 % of the variance there.
    const span = 80 / Math.PI;
    const levels = { ...silent, hMinus1: 1e-24 };
    const dial = dialAhead(question({ levels, runLength: span, ahead: span }));
    const expected = span * Math.sqrt(4 * Math.LN2 * 1e-24);
    expect(Math.abs(dial.standardUncertainty / expected - 1)).toBeLessThan(0.005);
  });

  it("knows no more after a long run than flicker lets it, and is unsure after a short one", () => {
    const levels = { ...silent, hMinus1: 1e-24 };
    const spread = (runLength: number) =>
      dialAhead(question({ levels, runLength, ahead: 1e4 })).standardUncertainty;
    expect(spread(1e2)).toBeGreaterThan(spread(1e4));
    expect(spread(1e6)).toBeGreaterThan(1e4 * 1e-12);
  });

  it("refuses lengths and confidences out of range", () => {
    expect(() => dialAhead(question({ ahead: 0 }))).toThrow(RangeError);
    expect(() => dialAhead(question({ runLength: -1 }))).toThrow(RangeError);
    expect(() => dialAhead(question({ confidence: 1 }))).toThrow(RangeError);
  });
});
