import { describe, expect, it } from "vitest";
import { timeDeviation } from "../../../src/analysis/index.ts";

describe("timeDeviation", () => {
  it("is D·τ²/√6 for linear frequency drift D", () => {
    const drift = 2 ** -30;
    const x = Float64Array.from({ length: 64 }, (_, i) => (drift * i * i) / 2);
    expect(timeDeviation(x, 1, 8) / ((drift * 64) / Math.sqrt(6))).toBeCloseTo(1, 13);
  });

  it("is a time: the same for the same x however the samples are spaced", () => {
    const x = Float64Array.from([0, 3, -1, 4, 4, 2, 9, -6, 5]);
    expect(timeDeviation(x, 7, 2)).toBeCloseTo(timeDeviation(x, 1, 2), 13);
  });

  it("follows ITU-T G.810 TVAR written out: (Σ second differences)²/(6n²)", () => {
    // n = 2, N = 6: one term, (x4 − 2x2 + x0) + (x5 − 2x3 + x1) = (5 − 4 + 1) + (7 − 6 + 0) = 3.
    const x = Float64Array.from([1, 0, 2, 3, 5, 7]);
    expect(timeDeviation(x, 1, 2)).toBeCloseTo(Math.sqrt(9 / 24), 14);
  });
});
