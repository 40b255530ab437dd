import { describe, expect, it } from "vitest";
import { endToEndResponse, independentReadingsResponse, lineFitResponse, meanOfReadingsResponse, measurementVariance } from "../../../src/judgement/index.ts";

const even = (n: number) => Float64Array.from({ length: n }, (_, i) => i);

describe("endToEndResponse and lineFitResponse", () => {
  it("give the variances of Π and Ω for N = 100, τ₀ = 0.1: 0.020406081 and 0.00120012", () => {
    // Rubiola 2005; Rubiola et al. 2016 (formulas from memory, checked by Monte Carlo). Levels are in units of τ₀².
    const unit = 1 / 0.1 ** 2;
    expect(endToEndResponse(even(100), 1, 1).measurement * unit).toBeCloseTo(0.020406081, 8);
    expect(lineFitResponse(even(100), 1, 1).measurement * unit).toBeCloseTo(0.00120012, 8);
  });

  it.each([
    [3, 0.5],
    [5, 0.26],
    [10, 0.1224242],
  ])("give Ω under white FM, N = %i: 6(N² + 1)/[5N(N² − 1)] = %d", (n, value) => {
    expect(lineFitResponse(even(n), 1, 1).whiteFm).toBeCloseTo(value, 7);
  });

  it("do not depend on the unit in which edges are counted", () => {
    const fine = even(20).map((n) => 50 * n);
    const a = lineFitResponse(fine, 0.2, 10);
    const b = lineFitResponse(even(20), 10, 10);
    expect(a.measurement).toBeCloseTo(b.measurement, 15);
    expect(a.whiteFm).toBeCloseTo(b.whiteFm, 15);
    expect(a.beat(0.1)).toBeCloseTo(b.beat(0.1), 15);
    expect(endToEndResponse(fine, 0.2, 10).whiteFm).toBeCloseTo(1 / 19, 15);
  });

  it("the beat of the line is the envelope of its slopes over all phases", () => {
    const n = 400;
    for (const frequency of [3 / n, 7.3 / n, 20.5 / n]) {
      let most = 0;
      for (let phase = 0; phase < 64; phase++) {
        const x = even(n).map((i) => Math.cos(2 * Math.PI * (frequency * i + phase / 64)));
        let slope = 0;
        for (let i = 0; i < n; i++) slope += (i - (n - 1) / 2) * x[i]!;
        most = Math.max(most, Math.abs((slope * 12) / (n * (n * n - 1))));
      }
      // Largest slope of a unit amplitude, power 1/2: never above √2 × the response's deviation.
      const envelope = Math.sqrt(lineFitResponse(even(n), 1, 1).beat(frequency));
      expect(most).toBeLessThanOrEqual(envelope * 1.01);
    }
  });
});

describe("meanOfReadingsResponse and independentReadingsResponse", () => {
  it("telescoping: 2σ²/(KT)² for one stretch, K = 100; 2σ²/(KT²) where all are apart", () => {
    // Telescoping of contiguous readings, own derivation checked by Monte Carlo: 2.0e-4 and 2.0e-2.
    const cycles = new Float64Array(100).fill(1);
    expect(meanOfReadingsResponse(cycles, 1, 1, 1).measurement).toBeCloseTo(2e-4, 15);
    expect(meanOfReadingsResponse(cycles, 100, 1, 1).measurement).toBeCloseTo(2e-2, 15);
    expect(independentReadingsResponse(cycles).measurement * 2).toBeCloseTo(2e-2, 15);
  });

  it("weights unequal independent readings by their length", () => {
    expect(independentReadingsResponse(Float64Array.of(1, 3)).measurement).toBe(10 / 16);
  });
});

describe("measurementVariance", () => {
  it("adds beats to the level", () => {
    const response = endToEndResponse(even(11), 1, 1);
    const beats = [{ frequency: 0.1, power: 3 }];
    const h = { level: 2, whitePm: 1, flickerPm: 0, beats };
    expect(measurementVariance(h, response)).toBeCloseTo((2 + 3) * 0.02, 15);
  });
});
