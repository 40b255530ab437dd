import { describe, expect, it } from "vitest";
import type { NoiseType } from "../../../src/analysis/index.ts";
import {
  degreesOfFreedom,
  deviationInterval,
  overlappingAllanDeviation,
  readingSimulator,
  timeErrorFromRates,
} from "../../../src/analysis/index.ts";
import { RandomStream } from "../../../src/numeric/index.ts";
import { checksLike } from "./reference-sets.ts";

describe("deviationInterval", () => {
  it("of variance 3 with 10 degrees of freedom at 90 % is 1.64 … 7.61 (NIST TN 1337, eqs 12-37 to 12-39)", () => {
    const { low, high } = deviationInterval(Math.sqrt(3), 10, 0.9);
    expect(Math.abs(low ** 2 - 1.64)).toBeLessThan(0.005);
    expect(Math.abs(high ** 2 - 7.61)).toBeLessThan(0.005);
  });

  it("of the 1000-point set, m = 10, is 8.2239e-2 … 1.0352e-1 (SP 1065, Table 32, from memory; approximate quantiles there)", () => {
    const { low, high } = deviationInterval(9.159953e-2, 146.177);
    expect(Math.abs(low / 8.223942e-2 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(high / 1.035201e-1 - 1)).toBeLessThan(1e-3);
    // Exact quantiles 114.597 and 181.541 (independent computation).
    expect(Math.abs(low / 8.219488e-2 - 1)).toBeLessThan(1e-6);
    expect(Math.abs(high / 1.034536e-1 - 1)).toBeLessThan(1e-6);
  });

  it("has 1.014923e-1 as one-sided 95 % upper bound there: the upper end at 90 % (SP 1065, Table 32, from memory)", () => {
    const { high } = deviationInterval(9.159953e-2, 146.177, 0.9);
    expect(Math.abs(high / 1.014923e-1 - 1)).toBeLessThan(1e-3);
    // Exact quantile 119.235 (independent computation).
    expect(Math.abs(high / 1.014218e-1 - 1)).toBeLessThan(1e-6);
  });

  // Exact chi-square, independent computation: 95 % and 68.27 % factors.
  it.each(checksLike(/^chi2factor/))("has the factors $values ($id)", ({ id, values }) => {
    const dof = Number(id.split(".")[1]);
    const wide = deviationInterval(1, dof);
    const narrow = deviationInterval(1, dof, 0.6827);
    expect(wide.low / values![0]!).toBeCloseTo(1, 9);
    expect(wide.high / values![1]!).toBeCloseTo(1, 9);
    expect(Math.abs(narrow.low / values![2]! - 1)).toBeLessThan(2e-4);
    expect(Math.abs(narrow.high / values![3]! - 1)).toBeLessThan(2e-4);
  });

  it("has closed factors at two degrees of freedom", () => {
    const { low, high } = deviationInterval(1, 2);
    expect(low).toBeCloseTo(Math.sqrt(-1 / Math.log(0.025)), 11);
    expect(high).toBeCloseTo(Math.sqrt(-1 / Math.log(0.975)), 10);
  });

  it.each<NoiseType>(["white_pm", "white_fm", "flicker_fm", "random_walk_fm"])(
    "holds the true Allan deviation in 95 %% of records of %s, with the exact degrees of freedom",
    (type) => {
      const draw = readingSimulator(type, 100, 1, 1);
      const stream = new RandomStream("interval", type);
      const y = new Float64Array(100);
      const sigmas = Array.from({ length: 1000 }, () => {
        draw(stream, y);
        return overlappingAllanDeviation(timeErrorFromRates(y, 1), 1, 8);
      });
      const truth = Math.sqrt(sigmas.reduce((sum, sigma) => sum + sigma * sigma, 0) / 1000);
      const edf = degreesOfFreedom("overlapping_allan", type, 101, 8);
      const kept = sigmas.filter((sigma) => {
        const { low, high } = deviationInterval(sigma, edf);
        return low <= truth && truth <= high;
      });
      // Binomial σ = 0.007; chi-square is an approximation here (within 0.012): 4σ and that.
      expect(Math.abs(kept.length / 1000 - 0.95)).toBeLessThan(0.04);
    },
  );

  it("throws RangeError naming the argument", () => {
    expect(() => deviationInterval(-1, 2)).toThrow(/deviation must be >= 0/);
    expect(() => deviationInterval(1, 0)).toThrow(/degreesOfFreedom must be > 0/);
    expect(() => deviationInterval(1, 2, 1)).toThrow(/confidence must be/);
  });
});
