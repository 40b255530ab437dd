import { describe, expect, it } from "vitest";
import {
  endPoints,
  frequencySumOfSquares,
  randomWalkSum,
  sumOfSquares,
  type Weighting,
} from "../../src/planning/index.ts";
import { stampsOf } from "./stamps-of.ts";

const line = (stamps: number, spacing: number): Weighting => ({ kind: "line", stamps, spacing });
const gates = (readings: number, gate: number, spacing: number): Weighting => ({
  kind: "gates",
  readings,
  gate,
  spacing,
});
const samples = [line(2, 3), line(3, 0.7), line(40, 1.3), gates(7, 2, 3.3)];

describe("sumOfSquares", () => {
  // White PM of 1 s on 100 stamps 0.1 s apart, values computed from the formulas of Rubiola (2005), Dawkins et
  // al. (2007) and Rubiola et al. (2016).
  it("meets the published variances of end points and line fit under white PM", () => {
    expect(sumOfSquares(endPoints(9.9))).toBeCloseTo(0.020406081012141617, 12);
    expect(sumOfSquares(line(100, 0.1))).toBeCloseTo(0.0012001200120012, 12);
  });

  it("falls as 1/K² for readings back to back and as 1/K with dead time", () => {
    // K = 100 readings of 1 s with 1 s of white PM: 2.0e-4 and 2.0e-2 (Rubiola 2005).
    expect(sumOfSquares(endPoints(100))).toBeCloseTo(2e-4, 15);
    expect(sumOfSquares(gates(100, 1, 1.1))).toBeCloseTo(2e-2, 15);
  });
});

describe("frequencySumOfSquares", () => {
  // Discrete white FM of a fitted line, 6(N² + 1)/(5N(N² − 1)): N = 3 .5, N = 5 .26, N = 10 .1224242.
  it.each([
    [3, 0.5],
    [5, 0.26],
    [10, 0.12242424242424242],
  ])("gives the published value for a line of %d stamps", (n, value) => {
    expect(frequencySumOfSquares(line(n, 1))).toBeCloseTo(value, 12);
  });

  it("tends to 6/5 of the end points' value (Dawkins et al. 2007, Rubiola et al. 2016)", () => {
    const n = 1e7;
    const ends = frequencySumOfSquares(endPoints(n - 1));
    expect(frequencySumOfSquares(line(n, 1)) / ends).toBeCloseTo(1.2, 6);
  });

  it("is the sum of the squared weights on frequency, written out", () => {
    for (const weighting of samples) {
      const { times, weights } = stampsOf(weighting);
      let rest = 0;
      let sum = 0;
      for (let k = times.length - 1; k > 0; k--) {
        rest += weights[k]!;
        sum += rest * rest * (times[k]! - times[k - 1]!);
      }
      expect(frequencySumOfSquares(weighting) / sum).toBeCloseTo(1, 9);
    }
  });
});

describe("randomWalkSum", () => {
  it("is the variance of the integral of a random walk, summed in fine steps", () => {
    for (const weighting of samples) {
      const { times, weights } = stampsOf(weighting);
      const end = times[times.length - 1]!;
      const steps = 200000;
      let sum = 0;
      for (let i = 0; i < steps; i++) {
        const t = ((i + 0.5) / steps) * end;
        let rest = 0;
        // ∫_t^∞ g = Σ over later stamps of w_k·(t_k − t).
        for (let k = 0; k < times.length; k++) {
          if (times[k]! > t) rest += weights[k]! * (times[k]! - t);
        }
        sum += rest * rest;
      }
      expect(((sum / steps) * end) / randomWalkSum(weighting)).toBeCloseTo(1, 5);
    }
  });

  it("goes over from the sum to its limit without a step", () => {
    const step = randomWalkSum(line(4097, 1)) - randomWalkSum(line(4096, 1));
    expect(step).toBeCloseTo(13 / 35, 3);
  });
});
