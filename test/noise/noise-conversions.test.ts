import { describe, expect, it } from "vitest";
import {
  flickerFmLevel,
  flickerPmAllanVariance,
  flickerPmConstant,
  flickerPmLevel,
  randomWalkFmLevel,
  whiteFmLevel,
  whitePmRms,
} from "../../src/noise/index.ts";

// All from IEEE Std 1139-2008, Annex B (from memory), worked by hand.
describe("noise conversions", () => {
  it("turn a white FM deviation of 2e-11 at 1 s into h0 = 8e-22/Hz", () => {
    expect(whiteFmLevel(2e-11)).toBeCloseTo(8e-22, 30);
  });

  it("turn a flicker floor of 2e-13 into h-1 = 4e-26/(2 ln 2) = 2.8854e-26", () => {
    expect(flickerFmLevel(2e-13) / 2.88539008e-26).toBeCloseTo(1, 8);
  });

  it("turn a random-walk FM deviation of 1 at 1 s into h-2 = 0.151982 Hz", () => {
    expect(randomWalkFmLevel(1)).toBeCloseTo(0.1519817755, 9);
  });

  it("hold the flicker PM constant 1.038 of the standard", () => {
    expect(flickerPmConstant).toBeCloseTo(1.0384998, 7);
  });

  it("turn a flicker PM deviation at 1 s into the h1 that has it", () => {
    const h1 = flickerPmLevel(3e-12, 5e6);
    const published = (h1 * (1.038 + 3 * Math.log(2 * Math.PI * 5e6))) / (4 * Math.PI ** 2);
    expect(Math.sqrt(published) / 3e-12).toBeCloseTo(1, 4);
    expect(Math.sqrt(flickerPmAllanVariance(h1, 5e6, 1))).toBeCloseTo(3e-12, 24);
  });

  it("turn white PM of 3·h2·fh/(4π²τ²) into 3·x²/τ²", () => {
    const rms = whitePmRms(7e-20, 100);
    expect((3 * rms * rms) / ((3 * 7e-20 * 100) / (4 * Math.PI ** 2))).toBeCloseTo(1, 14);
  });

  it("throw RangeError where flicker PM has no band to stand in", () => {
    expect(() => flickerPmLevel(1e-9, 0.1)).toThrow(/bandwidthHz must be > 0.113\/tau/);
  });
});
