import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { endToEndSlope } from "../../../src/analysis/rate/end-to-end-slope.ts";
import { lineFitSlope } from "../../../src/analysis/rate/line-fit-slope.ts";
import { meanOfReadingsSlope } from "../../../src/analysis/rate/mean-of-readings-slope.ts";
import { rateOfSlope } from "../../../src/analysis/rate/rate-of-slope.ts";

const edges = Float64Array.from({ length: 12 }, (_, i) => 50 * i);

describe("the three slopes", () => {
  it("agree on a constant rate, and with f/f₀ − 1 = T/P − 1", () => {
    const nominal = 0.99726956633;
    const period = nominal * (1 - 3e-5);
    const advance = new Float64Array(11).fill(50 * (nominal - period));
    const x = edges.map((n) => n * (nominal - period));
    const cycles = new Float64Array(11).fill(50);
    for (const slope of [
      meanOfReadingsSlope(advance, cycles, nominal),
      endToEndSlope(edges, x, nominal),
      lineFitSlope(edges, x, nominal),
    ]) {
      expect(rateOfSlope(slope)).toBeCloseTo(nominal / period - 1, 15);
    }
  });

  it("of readings back to back: the mean telescopes to the ends", () => {
    const record = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
      minLength: 2,
      maxLength: 40,
    });
    fc.assert(
      fc.property(record, (values) => {
        const x = Float64Array.from(values);
        const edge = x.map((_, i) => i);
        const advance = x.slice(1).map((v, i) => v - x[i]!);
        const cycles = new Float64Array(advance.length).fill(1);
        expect(meanOfReadingsSlope(advance, cycles, 2)).toBeCloseTo(endToEndSlope(edge, x, 2), 12);
      }),
      { seed: 1139 },
    );
  });
});

describe("meanOfReadingsSlope", () => {
  it("is count over total time, not the mean of single rates", () => {
    // 10 cycles of 1 s and 30 of 2 s, nominal 1 s: 40 cycles in 70 s.
    const s = meanOfReadingsSlope(Float64Array.of(0, -30), Float64Array.of(10, 30), 1);
    expect(rateOfSlope(s)).toBeCloseTo(40 / 70 - 1, 15);
  });

  it("leaves missing readings out", () => {
    const s = meanOfReadingsSlope(Float64Array.of(1, Number.NaN, 3), Float64Array.of(8, 5, 8), 1);
    expect(s).toBe(0.25);
    expect(meanOfReadingsSlope(Float64Array.of(Number.NaN), Float64Array.of(5), 1)).toBeNaN();
  });

  it("adds up a million readings to better than their digits", () => {
    const advance = new Float64Array(1e6).fill(1e-10);
    advance[0] = 1e6;
    advance[1e6 - 1] = -1e6;
    const s = meanOfReadingsSlope(advance, new Float64Array(1e6).fill(1), 1);
    expect(Math.abs(s * 1e6 - 999998e-10)).toBeLessThan(1e-12);
  });
});

describe("lineFitSlope", () => {
  // JCGM 100:2008, H.3, Table H.6 (from memory, checked by independent computation).
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];

  it("gives the slope 0.00218 of the thermometer calibration in GUM H.3", () => {
    const slope = lineFitSlope(Float64Array.from(t), Float64Array.from(b), 1);
    expect(slope.toFixed(5)).toBe("0.00218");
  });
});

describe("arguments", () => {
  it("of a wrong kind throw RangeError naming them", () => {
    const two = Float64Array.of(0, 1);
    expect(() => endToEndSlope(two, two, 0)).toThrow(/nominalPeriod must be > 0/);
    expect(() => lineFitSlope(two, two, Number.NaN)).toThrow(/nominalPeriod must be > 0/);
    expect(() => endToEndSlope(two, Float64Array.of(1), 1)).toThrow(/same number >= 2/);
    expect(() => lineFitSlope(Float64Array.of(1), Float64Array.of(1), 1)).toThrow(/>= 2/);
    expect(() => meanOfReadingsSlope(two, Float64Array.of(1), 1)).toThrow(/as many as/);
    expect(() => meanOfReadingsSlope(two, two, -1)).toThrow(/nominalPeriod must be > 0/);
  });
});
