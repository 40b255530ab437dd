import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { studentCdf, studentQuantile } from "../../src/numeric/student.ts";
import { worstRelativeError } from "./high-precision.ts";

describe("studentQuantile", () => {
  it("is within 1e-12 of high-precision values, 0.3 to 4000 degrees of freedom", () => {
    expect(worstRelativeError("studentQuantile", studentQuantile)).toBeLessThan(1e-12);
  });

  it("has the factors of the GUM, table G.2 (JCGM 100:2008), at 95 % [from memory]", () => {
    const table = [
      [1, 12.71],
      [2, 4.3],
      [3, 3.18],
      [4, 2.78],
      [5, 2.57],
      [6, 2.45],
      [7, 2.36],
      [8, 2.31],
      [9, 2.26],
      [10, 2.23],
      [15, 2.13],
      [20, 2.09],
      [25, 2.06],
      [30, 2.04],
      [50, 2.01],
      [100, 1.984],
    ] as const;
    for (const [dof, t] of table) {
      expect(Math.abs(studentQuantile(0.975, dof) - t), `ν ${dof}`).toBeLessThan(0.0051);
    }
  });

  it("has its closed forms for 1 and 2 degrees of freedom", () => {
    for (const p of [0.5000001, 0.6, 0.9, 0.9999]) {
      const cauchy = Math.tan(Math.PI * (p - 0.5));
      expect(Math.abs(studentQuantile(p, 1) / cauchy - 1)).toBeLessThan(1e-12);
      const two = (2 * (p - 0.5)) / Math.sqrt(2 * p * (1 - p));
      expect(Math.abs(studentQuantile(p, 2) / two - 1)).toBeLessThan(1e-12);
    }
  });

  it("becomes the Gaussian with many degrees of freedom: z + (z³ + z)/(4ν) (A&S 26.7.5)", () => {
    for (const p of [0.6, 0.975, 0.9999]) {
      const z = normalQuantile(p);
      const expected = z + (z ** 3 + z) / 4e7;
      expect(Math.abs(studentQuantile(p, 1e7) - expected)).toBeLessThan(1e-11);
    }
  });

  it("is odd about ½ and undone by the distribution function, 0.1 to 1e6 degrees of freedom", () => {
    const logDof = fc.double({ min: -1, max: 6, noNaN: true });
    const probability = fc.double({ min: 1e-6, max: 0.499999, noNaN: true });
    fc.assert(
      fc.property(logDof, probability, (log10, p) => {
        const dof = 10 ** log10;
        const t = studentQuantile(p, dof);
        expect(Math.abs(studentCdf(t, dof) / p - 1)).toBeLessThan(1e-10);
        expect(Math.abs(studentCdf(-t, dof) - (1 - p))).toBeLessThan(1e-12);
      }),
      { seed: 16, numRuns: 200 },
    );
  });

  it("is 0 at ½, infinite at the ends, and refuses what is out of range", () => {
    expect([studentQuantile(1, 3), studentQuantile(0, 3)]).toEqual([Infinity, -Infinity]);
    expect(Math.abs(studentQuantile(0.5, 3))).toBe(0);
    expect(() => studentQuantile(0.5, 0)).toThrow(RangeError);
    expect(() => studentQuantile(1.5, 1)).toThrow(RangeError);
    expect(() => studentCdf(NaN, 1)).toThrow(RangeError);
    expect(() => studentCdf(0, -2)).toThrow(RangeError);
  });
});

describe("studentCdf", () => {
  it("is within 1e-13 of high-precision values", () => {
    expect(worstRelativeError("studentCdf", studentCdf)).toBeLessThan(1e-13);
  });

  it("is ½ + arctan(t)/π for 1 degree of freedom", () => {
    for (const t of [-100, -1, -1e-8, 0, 0.3, 7, 1e200]) {
      expect(Math.abs(studentCdf(t, 1) - (0.5 + Math.atan(t) / Math.PI))).toBeLessThan(1e-15);
    }
  });
});
