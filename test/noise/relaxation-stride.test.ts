import { describe, expect, it } from "vitest";
import { RelaxationBank } from "../../src/noise/relaxation-bank.ts";
import type { Seen } from "../../src/noise/relaxation-bridge.ts";
import { openReadings, relaxationStride } from "../../src/noise/relaxation-stride.ts";

const half = openReadings / 2;
const law = (time: number, diffusion: number, seen: Seen) =>
  relaxationStride(
    new RelaxationBank(Float64Array.of(time), Float64Array.of(diffusion), Float64Array.of(0)),
    seen,
    1,
  );

describe("relaxationStride", () => {
  it("keeps a random walk and a slow process on the straight line between their ends", () => {
    for (const time of [Infinity, 1e7]) {
      const { even, odd, steps } = law(time, 1, "sum");
      expect(steps).toBe(openReadings + 1);
      for (let i = 0; i < half; i++) {
        // ½·(y(0) + y(T)) and ½·(1 − 2t/T)·(y(T) − y(0)).
        expect(even[i * (1 + half)]!).toBeCloseTo(0.5, 10);
        expect(odd[i * (1 + half)]!).toBeCloseTo(0.5 - (i + 1) / steps, 10);
      }
    }
  });

  it("makes readings of a process far faster than the step independent", () => {
    const { even, odd, root } = law(1e-3, 2e3, "sum");
    // Variance D·T/2 = 1: each of two readings is made of an even and an odd deviate of variance ½.
    for (let i = 0; i < half; i++) {
      for (let j = 0; j < half; j++) {
        const wanted = i === j ? Math.SQRT1_2 : 0;
        expect(even[i * (1 + half) + 1 + j]!).toBeCloseTo(wanted, 14);
        expect(odd[i * (1 + half) + 1 + j]!).toBeCloseTo(wanted, 14);
      }
      expect(root[i * (openReadings + 1)]!).toBeCloseTo(1, 14);
    }
  });
});
