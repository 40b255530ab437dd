import { mean } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  endToEndSlope,
  estimateRates,
  lineFitSlope,
  meanOfReadingsSlope,
  rateOfSlope,
} from "../../src/judgement/index.ts";
import { checksLike, lcgRates, means, nbsRates } from "../analysis/stability/reference-sets.ts";

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
  const [calibration] = checksLike(/^gumH3\.y1$/);
  const { t, b } = calibration!.data as Record<"t" | "b", number[]>;

  it("gives the line of the thermometer calibration in GUM H.3", () => {
    const slope = lineFitSlope(Float64Array.from(t), Float64Array.from(b), 1);
    const [y2] = checksLike(/^gumH3\.y2$/);
    expect(slope.toFixed(5)).toBe(y2!.expected.toFixed(5));
    // A line goes through the means; the GUM counts the temperature from 20 °C.
    const at = (temperature: number) => mean(b)! + slope * (temperature - mean(t)!);
    expect(at(20).toFixed(4)).toBe(calibration!.expected.toFixed(4));
    expect(at(30).toFixed(4)).toBe(checksLike(/^gumH3\.b30$/)[0]!.expected.toFixed(4));
  });
});

describe("slopes of published data sets", () => {
  const sets: Record<string, Float64Array> = { nbs9: nbsRates, lcg1000: lcgRates };
  const counted = (y: Float64Array) => y.map((_, i) => i + 1);
  // NIST SP 1065, Tables 30 and 31: frequency drift by least squares, from the mean of the first differences, and
  // from the means of both halves; data are counted from 1.
  const drifts: Record<string, (y: Float64Array) => number> = {
    slope: (y) => lineFitSlope(counted(y), y, 1),
    intercept: (y) => mean(y)! - lineFitSlope(counted(y), y, 1) * ((y.length + 1) / 2),
    first_diff_slope: (y) => endToEndSlope(counted(y), y, 1),
    bisection_slope: (y) => {
      const half = Math.floor(y.length / 2);
      const halves = Float64Array.of(mean(y.slice(0, half))!, mean(y.slice(y.length - half))!);
      return endToEndSlope(Float64Array.of(0, y.length - half), halves, 1);
    },
  };
  it.each(checksLike(/^(nbs9|lcg1000)\.(slope|intercept|first_diff_slope|bisection_slope)\./))(
    "have $id = $expected ($source)",
    ({ id, expected, suggested_rel_tol }) => {
      const [set, drift, m] = id.split(".") as [string, string, string];
      const value = drifts[drift]!(means(sets[set]!, Number(m.slice(1))));
      expect(Math.abs(value / expected - 1)).toBeLessThan(suggested_rel_tol!);
    },
  );
});

describe("scatter of single readings", () => {
  it("is that of the twenty temperatures in GUM 4.4.3: mean 100.145, s = 1.489, u = 0.333", () => {
    const [u] = checksLike(/^gum443\.u$/);
    const [m] = checksLike(/^gum443\.mean$/);
    const [s] = checksLike(/^gum443\.s$/);
    // Temperatures as rates in units of a thousandth, read with dead time: a slope of 1e-3·t is a period 1 − 1e-3·t.
    const period = Float64Array.from(u!.data as number[], (t) => 1 - 1e-3 * t);
    const readings = {
      kind: "period",
      period,
      cycles: period.map(() => 1),
      start: null,
      nominalPeriod: 1,
      backToBack: false,
    } as const;
    const [estimate] = estimateRates(readings);
    const { rate } = estimate!;
    expect(((1e3 * rate) / (1 + rate)).toFixed(3)).toBe(m!.expected.toFixed(3));
    const deviation = estimate!.naiveStandardUncertainty * Math.sqrt(period.length);
    expect((1e3 * deviation).toFixed(3)).toBe(s!.expected.toFixed(3));
    expect((1e3 * estimate!.naiveStandardUncertainty).toFixed(3)).toBe(u!.expected.toFixed(3));
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
