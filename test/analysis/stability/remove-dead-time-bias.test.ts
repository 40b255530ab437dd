import { describe, expect, it } from "vitest";
import type { NoiseType } from "../../../src/analysis/index.ts";
import {
  overlappingAllanDeviation,
  readingSimulator,
  removeDeadTimeBias,
  timeErrorFromRates,
} from "../../../src/analysis/index.ts";
import { RandomStream } from "../../../src/numeric/index.ts";

describe("removeDeadTimeBias", () => {
  it("changes nothing back to back, nor under white FM", () => {
    expect(removeDeadTimeBias(3, [], 1, 5)).toEqual({ value: 3 });
    const corrected = removeDeadTimeBias(3, ["white_fm"], 7, 4) as { value: number };
    expect(corrected.value).toBeCloseTo(3, 12);
  });

  it("turns two independent readings under white PM into three edges: factor √(3/2)/√M", () => {
    // Var(½(y₂ − y₁)²): 4σ_x²/2 with dead time, 6σ_x²/2 without; means of M fall as 1/M with dead time, 1/M² without.
    const corrected = removeDeadTimeBias(1, ["white_pm"], 2, 4) as { value: number };
    expect(corrected.value).toBeCloseTo(Math.sqrt(3 / 2 / 4), 12);
  });

  it.each<NoiseType>(["flicker_fm", "random_walk_fm"])(
    "recovers the Allan deviation of readings of %s simulated with dead time",
    (type) => {
      // r = 3, means of 4 readings, 300 records of 64 seeded readings. The long back-to-back reading of 4 gates is
      // simulated with the same scale (unit coefficient of the same autocovariance): σ_y²(4) from 300 others.
      const stream = new RandomStream("dead time", type);
      const mean = (ratio: number, m: number): number => {
        const draw = readingSimulator(type, 64, ratio, 1);
        const y = new Float64Array(64);
        let sum = 0;
        for (let k = 0; k < 300; k++) {
          draw(stream, y);
          sum += overlappingAllanDeviation(timeErrorFromRates(y, 1), 1, m) ** 2;
        }
        return Math.sqrt(sum / 300);
      };
      const corrected = removeDeadTimeBias(mean(3, 4), [type], 3, 4) as { value: number };
      // About 16 degrees of freedom a record: each variance to √(2/4800) = 2 %, the ratio of deviations to 1.5 %; 4σ.
      expect(Math.abs(corrected.value / mean(1, 4) - 1)).toBeLessThan(0.06);
    },
  );

  it("refuses with a reason where the type is open or the bandwidth matters", () => {
    const both = removeDeadTimeBias(1, ["white_pm", "white_fm"], 2, 1) as { refused: string };
    expect(both.refused).toBe(
      "the noise may be white PM or white FM, whose corrections differ by a factor of 1.22",
    );
    expect(removeDeadTimeBias(1, ["flicker_pm"], 2, 1)).toHaveProperty("refused");
    expect(removeDeadTimeBias(1, [], 2, 1)).toEqual({ refused: "the noise type is not known" });
  });

  it("accepts several types whose corrections agree within 5 %", () => {
    const close = removeDeadTimeBias(1, ["white_fm", "flicker_fm"], 1.02, 1) as { value: number };
    expect(close.value).toBeGreaterThan(0.97);
    expect(close.value).toBeLessThan(1);
  });

  it("throws RangeError for arguments out of range", () => {
    expect(() => removeDeadTimeBias(-1, [], 2, 1)).toThrow(/deviation must be >= 0/);
    expect(() => removeDeadTimeBias(1, [], 0.9, 1)).toThrow(/deadTimeRatio must be >= 1/);
    expect(() => removeDeadTimeBias(1, [], 2, 0)).toThrow(/m must be an integer/);
  });
});
