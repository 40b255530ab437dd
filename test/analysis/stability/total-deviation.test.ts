import { describe, expect, it } from "vitest";
import {
  hadamardTotalDeviation,
  modifiedTotalDeviation,
  overlappingAllanDeviation,
  timeTotalDeviation,
  totalDeviation,
} from "../../../src/analysis/index.ts";

const x = Float64Array.from([0, 3, -1, 4, 4, 2, 9, -6, 5, 1, 0, 8]);

describe("totalDeviation", () => {
  it("is the Allan deviation at m = 1", () => {
    expect(totalDeviation(x, 2, 1)).toBeCloseTo(overlappingAllanDeviation(x, 2, 1), 14);
  });

  it("is zero for a constant frequency offset, at every m", () => {
    const line = Float64Array.from({ length: 12 }, (_, i) => 4 - 3 * i);
    for (let m = 1; m < 12; m++) expect(totalDeviation(line, 1, m)).toBe(0);
  });

  it("is blind to the direction of time", () => {
    for (let m = 1; m < 12; m++) {
      expect(totalDeviation(x.toReversed(), 1, m)).toBeCloseTo(totalDeviation(x, 1, m), 12);
    }
  });

  it("throws RangeError naming m or x", () => {
    expect(() => totalDeviation(x, 1, 12)).toThrow(/m < N = 12/);
    expect(() => totalDeviation(new Float64Array(2), 1, 1)).toThrow(/at least 3/);
  });
});

describe("modifiedTotalDeviation", () => {
  it("is zero for a constant frequency offset", () => {
    const line = Float64Array.from({ length: 12 }, (_, i) => 4 - 3 * i);
    expect(modifiedTotalDeviation(line, 1, 3)).toBe(0);
  });

  it("is σ_y/√2 at m = 1: three points less their slope give d²(4 + 1 + 1 + …)/6 = 2d², not 4d²", () => {
    // x less slope: (a, b, a), reflected (a b a)(a b a)(a b a): second differences 2d, d, d twice over, d = a − b.
    const sigma = overlappingAllanDeviation(x, 1, 1);
    expect(modifiedTotalDeviation(x, 1, 1)).toBeCloseTo(sigma / Math.SQRT2, 13);
  });

  it("divides the variance by the bias, and refuses a bias that is not positive", () => {
    const raw = modifiedTotalDeviation(x, 1, 2);
    expect(modifiedTotalDeviation(x, 1, 2, 0.73)).toBeCloseTo(raw / Math.sqrt(0.73), 13);
    expect(() => modifiedTotalDeviation(x, 1, 2, 0)).toThrow(/bias must be > 0/);
  });
});

describe("timeTotalDeviation", () => {
  it("is τ/√3 times the modified total deviation", () => {
    const modified = modifiedTotalDeviation(x, 5, 2);
    expect(timeTotalDeviation(x, 5, 2)).toBeCloseTo((10 * modified) / Math.sqrt(3), 12);
  });
});

describe("hadamardTotalDeviation", () => {
  it("is zero for linear frequency drift", () => {
    const drift = Float64Array.from({ length: 16 }, (_, i) => i * i);
    expect(hadamardTotalDeviation(drift, 1, 1)).toBe(0);
    expect(hadamardTotalDeviation(drift, 1, 3)).toBe(0);
  });

  it("throws RangeError naming m where no run of 3m readings fits", () => {
    expect(() => hadamardTotalDeviation(x, 1, 4)).toThrow(/3m < N = 12/);
  });
});
