import { describe, expect, it } from "vitest";
import { noiseSchema, resolveNoise, SenseReport } from "../../src/keys/index.ts";

const resolved = (noise: object, edgeRateHz = 10e6) =>
  resolveNoise(noiseSchema.parse(noise), edgeRateHz, ["noise"], new SenseReport());

// Formulas of IEEE Std 1139-2008, Annex B, as tabulated in NIST SP 1065, section 6.
const pi = Math.PI;
const gamma = 0.5772156649015329;

describe("resolveNoise", () => {
  it("is silent where nothing is said, up to half the edge rate", () => {
    expect(resolved({}, 5)).toEqual({
      whitePmRms: 0,
      h1: 0,
      h0: 0,
      hMinus1: 0,
      hMinus2: 0,
      bandwidthHz: 2.5,
      flickerLongest: 1e8,
    });
  });

  it("gives levels whose Allan variance is that of the keys", () => {
    const noise = resolved({
      white_fm_adev_1s: 2e-11,
      flicker_fm_adev: 2e-13,
      random_walk_fm_adev_1s: 1e-16,
      flicker_pm_adev_1s: 3e-12,
    });
    expect(noise.h0 / 2).toBeCloseTo(4e-22, 35);
    expect(2 * Math.LN2 * noise.hMinus1).toBeCloseTo(4e-26, 39);
    expect(((2 * pi ** 2) / 3) * noise.hMinus2).toBeCloseTo(1e-32, 45);
    const bracket = 3 * gamma - Math.LN2 + 3 * Math.log(2 * pi * 5e6);
    expect((noise.h1 * bracket) / (4 * pi ** 2) / 9e-24).toBeCloseTo(1, 12);
  });

  it("takes the time error of white PM as it is, and from h2 by the band", () => {
    expect(resolved({ white_pm_rms_s: 1e-11 }).whitePmRms).toBe(1e-11);
    const { whitePmRms } = resolved({ h: { h2: 8e-28 }, bandwidth_hz: 1e3 });
    expect(whitePmRms ** 2 / ((8e-28 * 1e3) / (4 * pi ** 2))).toBeCloseTo(1, 12);
  });

  it("takes levels h as they are", () => {
    const h = { h1: 1e-20, h0: 2e-21, h_minus_1: 3e-22, h_minus_2: 4e-23 };
    expect(resolved({ h, flicker_longest_s: 1e5 })).toMatchObject({
      h1: 1e-20,
      h0: 2e-21,
      hMinus1: 3e-22,
      hMinus2: 4e-23,
      flickerLongest: 1e5,
    });
  });
});
