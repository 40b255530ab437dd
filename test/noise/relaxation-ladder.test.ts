import { describe, expect, it } from "vitest";
import { relaxationLadder } from "../../src/noise/index.ts";
import { checksLike } from "../analysis/stability/reference-sets.ts";

const band = { bandwidthHz: 1e3, flickerLongest: 1e6 };
const shortest = 1 / (2 * Math.PI * 1e3);
const ladder = relaxationLadder(band, 1e-9);
/** As frequency noise: with the process that stands for all beyond the end. */
const rateTimes = [ladder.end!, ...ladder.timeConstants];

/** Allan variance of one relaxation process of rate with variance v (own integration of its covariance). */
const termAllan = (time: number, v: number, tau: number) => {
  const u = tau / time;
  const bracket =
    u < 0.05
      ? (2 / 3) * u ** 3 - u ** 4 / 2 + (7 / 30) * u ** 5
      : 2 * u - 3 + 4 * Math.exp(-u) - Math.exp(-2 * u);
  return v * (time / tau) ** 2 * bracket;
};

describe("relaxationLadder", () => {
  it("has a spectrum of h/f within 0.1 % far from its ends", () => {
    for (const f of [1e-3, 0.02, 0.03, 0.05, 0.1]) {
      const w = 2 * Math.PI * f;
      let s = 0;
      for (const time of rateTimes) {
        s += (4 * ladder.variancePerLevel * time) / (1 + (w * time) ** 2);
      }
      expect(Math.abs(s * f - 1)).toBeLessThan(1e-3);
    }
  });

  it("ripples in the middle as two processes a decade do", () => {
    const wide = relaxationLadder({ bandwidthHz: 1e5, flickerLongest: 1e8 }, 1e-9);
    let [low, high] = [0, 0];
    for (let f = 0.01; f < 0.1; f *= 1.01) {
      let s = 0;
      for (const time of wide.timeConstants) {
        s += (4 * wide.variancePerLevel * time) / (1 + (2 * Math.PI * f * time) ** 2);
      }
      low = Math.min(low, s * f - 1);
      high = Math.max(high, s * f - 1);
    }
    // Independent computation from the definition; the grid of f and the far ends leave 1 % of it.
    const { psd_lo, psd_hi } = checksLike(/^ou\.ripple\.2$/)[0]!.values as unknown as Record<
      string,
      number
    >;
    expect(low / psd_lo!).toBeCloseTo(1, 1);
    expect(high / psd_hi!).toBeCloseTo(1, 1);
  });

  it.each([
    // Own integration of S_y = h/f with a sharp end at f_h: 1.2 % below 2·ln 2 at 7.4 shortest time constants.
    [7.4 * shortest, 0.01],
    [100 * shortest, 1e-3],
    [1, 2e-4],
    [1e6 / 24, 0.012],
  ])(
    "has the Allan variance 2·ln 2 of flicker FM (IEEE Std 1139) at %s s within %s in deviation",
    (tau, within) => {
      let variance = 0;
      for (const time of rateTimes) {
        variance += termAllan(time, ladder.variancePerLevel, tau);
      }
      expect(Math.abs(Math.sqrt(variance / (2 * Math.LN2)) - 1)).toBeLessThan(within);
    },
  );

  it.each([0.01, 1, 100])("has the Allan variance of flicker PM (IEEE Std 1139) at %s s", (tau) => {
    let sum = 0;
    for (const time of ladder.timeConstants) {
      const u = tau / time;
      sum += ladder.variancePerLevel * (3 - 4 * Math.exp(-u) + Math.exp(-2 * u));
    }
    // 1.038 as the standard prints it.
    const published = 1.038 + 3 * Math.log(2 * Math.PI * 1e3 * tau);
    expect(Math.abs(sum / published - 1)).toBeLessThan(1e-3);
  });

  it("ends where the stage says, two processes a decade between", () => {
    expect(ladder.timeConstants[0]! / shortest).toBeCloseTo(10 ** 0.25, 12);
    const times = ladder.timeConstants;
    expect(times[times.length - 1]!).toBeGreaterThan(1e6 / 10 ** 0.25 - 1);
    expect(times[times.length - 1]!).toBeLessThan(1e6 * 10 ** 0.25);
    expect(times[3]! / times[1]!).toBeCloseTo(10, 12);
  });

  it("keeps the sum of all time constants whatever is fast", () => {
    const coarse = relaxationLadder(band, 1e3);
    expect(coarse.fastTimes.length + coarse.timeConstants.length).toBe(ladder.timeConstants.length);
    expect(coarse.timeConstants[0]!).toBeGreaterThanOrEqual(1);
    const added = [...coarse.fastTimes].reduce((a, b) => a + b, 0);
    expect(ladder.fastTime).toBe(0);
    expect(coarse.end).toBeNull();
    expect(coarse.fastTime).toBeCloseTo(ladder.end! + added, 12);
  });

  it("throws RangeError naming finestScale", () => {
    expect(() => relaxationLadder(band, 0)).toThrow(/finestScale must be > 0 s, got 0/);
  });
});
