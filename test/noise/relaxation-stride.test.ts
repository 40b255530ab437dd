import { describe, expect, it } from "vitest";
import type { Seen } from "../../src/noise/index.ts";
import { abreast, openReadings, RelaxationBank, relaxationStride } from "../../src/noise/index.ts";

const half = openReadings / 2;
const law = (time: number, diffusion: number, seen: Seen) =>
  relaxationStride(
    new RelaxationBank(Float64Array.of(time), Float64Array.of(diffusion), Float64Array.of(0)),
    seen,
    1,
  );

/** Entry k of row i, its odd part if so wanted, of a law of n processes. */
function entry(weights: Float64Array, terms: number, i: number, k: number, odd = false): number {
  const row = i % abreast;
  const group = weights.subarray(2 * (terms + half) * (i - row));
  return group[2 * abreast * k + (odd ? abreast : 0) + row]!;
}

describe("relaxationStride", () => {
  it("keeps a random walk and a slow process on the straight line between their ends", () => {
    for (const time of [Infinity, 1e7]) {
      const { law: weights, steps } = law(time, 1, "sum");
      expect(steps).toBe(openReadings + 1);
      for (let i = 0; i < half; i++) {
        // ½·(y(0) + y(T)) and ½·(1 − 2t/T)·(y(T) − y(0)).
        expect(entry(weights, 1, i, 0)).toBeCloseTo(0.5, 10);
        expect(entry(weights, 1, i, 0, true)).toBeCloseTo(0.5 - (i + 1) / steps, 10);
      }
    }
  });

  it("makes readings of a process far faster than the step independent", () => {
    const { law: weights, root } = law(1e-3, 2e3, "sum");
    // Variance D·T/2 = 1: each of two readings is made of an even and an odd deviate of variance ½.
    for (let i = 0; i < half; i++) {
      for (let j = 0; j < half; j++) {
        const wanted = i === j ? Math.SQRT1_2 : 0;
        expect(entry(weights, 1, i, 1 + j)).toBeCloseTo(wanted, 14);
        expect(entry(weights, 1, i, 1 + j, true)).toBeCloseTo(wanted, 14);
      }
      expect(root[i * (openReadings + 1)]!).toBeCloseTo(1, 14);
    }
  });

  it("leaves out the end values of which nothing is left in a reading", () => {
    const times = Float64Array.of(0.01, 0.2, 1e4);
    const bank = new RelaxationBank(times, Float64Array.of(1, 1, 1), Float64Array.of(0, 0, 0));
    const { law: weights, starts } = relaxationStride(bank, "integral", 1);
    // e^(−100) of the first process is left after a step, e^(−5) of the second: 1e-17 after eight.
    expect(Array.from(starts)).toEqual([0, 1]);
    for (let i = 1; i < half; i++) {
      const [first, last] = [entry(weights, 3, i, 0), entry(weights, 3, i, 2)];
      expect(Math.abs(first)).toBeLessThan(1e-17 * Math.abs(last));
      // After the last of its own deviates a row is zero.
      for (let j = i + 1; j < half; j++) expect(entry(weights, 3, i, 3 + j)).toBe(0);
    }
  });
});
