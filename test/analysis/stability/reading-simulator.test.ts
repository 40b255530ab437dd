import { describe, expect, it } from "vitest";
import type { NoiseType } from "../../../src/analysis/index.ts";
import {
  longRecordExponent,
  readingCovariance,
  readingSimulator,
} from "../../../src/analysis/index.ts";
import { RandomStream } from "../../../src/numeric/index.ts";

describe("readingCovariance", () => {
  it("is 2, −1, 0 for white PM back to back, 2, 0 with dead time", () => {
    expect([0, 1, 2].map((j) => readingCovariance("white_pm", j, 1, 1))).toEqual([2, -1, 0]);
    expect([0, 1].map((j) => readingCovariance("white_pm", j, 1.5, 1))).toEqual([2, 0]);
  });

  it("is 2, 0, 0 for white FM at any dead time", () => {
    expect([0, 1, 2].map((j) => readingCovariance("white_fm", j, 2.5, 1))).toEqual([2, 0, 0]);
  });

  it("is 8, 2, 0 for differences of random-walk FM: fourth differences of |t|³", () => {
    expect([0, 1, 2].map((j) => readingCovariance("random_walk_fm", j, 1, 1))).toEqual([8, 2, 0]);
  });
});

describe("longRecordExponent", () => {
  it("is exact for white noise: 2 for phase, 0 for frequency", () => {
    expect(longRecordExponent("white_pm", 1, 1)).toBe(2);
    expect(Math.abs(longRecordExponent("white_fm", 1, 1))).toBe(0);
  });

  it("is −2.4 for random-walk FM: r₁ = ¼, δ = ⅕ after one difference", () => {
    expect(longRecordExponent("random_walk_fm", 1, 1)).toBeCloseTo(-2.4, 12);
  });
});

describe("readingSimulator", () => {
  it.each<[NoiseType, number]>([
    ["white_pm", 1],
    ["flicker_pm", 1],
    ["white_fm", 2],
  ])("draws readings of %s, ratio %d, with the covariance of the type", (type, ratio) => {
    const count = 6;
    const runs = 20000;
    const draw = readingSimulator(type, count, ratio, 1);
    const stream = new RandomStream("covariance", type);
    const y = new Float64Array(count);
    const sums = new Float64Array(count);
    for (let k = 0; k < runs; k++) {
      draw(stream, y);
      for (let j = 0; j < count; j++) sums[j]! += y[0]! * y[j]!;
    }
    const variance = readingCovariance(type, 0, ratio, 1);
    // Products of Gaussians: σ <= variance·√(2/runs) = 1 % of the variance; 4.5σ.
    for (let j = 0; j < count; j++) {
      const expected = readingCovariance(type, j, ratio, 1);
      expect(Math.abs(sums[j]! / runs - expected)).toBeLessThan(0.045 * variance);
    }
  });
});
