import { describe, expect, it } from "vitest";
import { roundingError } from "../../../src/judgement/index.ts";

const root12 = Math.sqrt(12);

describe("roundingError", () => {
  it("is that of a uniform error of one step (JCGM 100:2008, 4.3.7)", () => {
    expect(roundingError(Float64Array.of(1, 1.25))).toBeCloseTo(
      (0.01 * Math.sqrt((1 + 0.64) / 2)) / root12,
      12,
    );
    expect(roundingError(Float64Array.of(1e7, 10_000_000.5))).toBeCloseTo(0.1e-7 / root12, 15);
    expect(roundingError(Float64Array.of(2e-9, Number.NaN, 2.01e-9))).toBeCloseTo(
      0.005 / root12,
      5,
    );
    expect(roundingError(Float64Array.of(Number.NaN, 0))).toBe(0);
  });

  it("takes a display of so many digits as coarser above a power of ten, a zero at the end for a digit", () => {
    const display = Float64Array.from({ length: 400 }, (_, i) =>
      Number((1 + 1e-3 * Math.sin(i * i + 1)).toPrecision(6)),
    );
    const above = display.filter((v) => v >= 1).length / 400;
    const six = (above * 1e-10 + (1 - above) * 1e-12) / 12;
    expect(roundingError(display) / Math.sqrt(six)).toBeCloseTo(1, 2);
    const fixed = display.map((v) => Number((v + 1e-6).toFixed(6)));
    expect(roundingError(fixed) / 1e-6 / (1 / root12)).toBeCloseTo(1, 2);
    // Six decimals, of which the only value above 1 shows none.
    const steady = Float64Array.from({ length: 100 }, (_, i) => (i === 50 ? 1 : 0.999_991 + i * 0));
    expect(roundingError(steady)).toBeLessThan(2e-6 / root12);
  });

  it("is none to speak of where values have all digits of a double", () => {
    const full = Float64Array.from({ length: 50 }, (_, i) => 1 + 1e-4 * Math.sin(i * i));
    expect(roundingError(full)).toBeLessThan(1e-15);
    expect(roundingError(Float64Array.of(1e308, 5e-324, 1))).toBeGreaterThanOrEqual(0);
  });
});
