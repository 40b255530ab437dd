import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  mtie,
  mtieAt,
  octaveFactors,
  timeErrorFromRates,
  timeIntervalError,
} from "../../../src/analysis/index.ts";
import { checksLike, nbsRates } from "./reference-sets.ts";

/** The definition of ITU-T G.810: the greatest range over every window of n + 1 samples. */
const direct = (x: readonly number[], n: number): number => {
  let greatest = 0;
  for (let k = 0; k + n < x.length; k++) {
    const window = x.slice(k, k + n + 1);
    greatest = Math.max(greatest, Math.max(...window) - Math.min(...window));
  }
  return greatest;
};

describe("mtie", () => {
  it("equals the definition for every window", () => {
    const record = fc.array(fc.integer({ min: -999, max: 999 }), { minLength: 2, maxLength: 70 });
    fc.assert(
      fc.property(record, (values) => {
        const x = Float64Array.from(values);
        const all = Array.from({ length: values.length - 1 }, (_, i) => i + 1);
        const expected = all.map((n) => direct(values, n));
        expect([...mtieAt(x, all)]).toEqual(expected);
        expect(all.map((n) => mtie(x, n))).toEqual(expected);
        const octaves = octaveFactors(values.length - 1);
        expect([...mtieAt(x, octaves)]).toEqual(octaves.map((n) => direct(values, n)));
      }),
      { seed: 810, numRuns: 60 },
    );
  });

  it("of the NBS 10-point set is 144.8889 at n = 1 and 262.7777 beyond (ITU-T G.810, II.5, evaluated independently)", () => {
    // The set is printed with its mean frequency removed, rounded to four decimals.
    const mean = nbsRates.reduce((a, b) => a + b) / nbsRates.length;
    const x = timeErrorFromRates(
      nbsRates.map((y) => y - mean),
      1,
    );
    const [check] = checksLike(/^mtie\.nbs10$/);
    const all = Array.from({ length: 9 }, (_, i) => i + 1);
    mtieAt(x, all).forEach((value, i) => {
      expect(Math.abs(value - check!.values![i]!)).toBeLessThan(2e-4);
    });
  });

  it("is |y|·n·τ₀ for a constant frequency offset, and never falls as the window grows", () => {
    const line = Float64Array.from({ length: 50 }, (_, i) => -3 * i);
    expect([...mtieAt(line, [1, 7, 8, 49])]).toEqual([3, 21, 24, 147]);
  });

  it("keeps a gap visible, or takes what is there as a lower bound", () => {
    const x = Float64Array.from([0, 5, Number.NaN, -2, 1]);
    expect(mtie(x, 2)).toBeNaN();
    expect(mtie(x, 2, "skip")).toBe(7);
    expect(mtie(Float64Array.from([Number.NaN, Number.NaN]), 1, "skip")).toBeNaN();
  });

  it("leaves the record as it was", () => {
    const x = Float64Array.from([4, 1, 3]);
    mtie(x, 2);
    expect([...x]).toEqual([4, 1, 3]);
  });

  it.each([[[0]], [[5]], [[1.5]], [[2, 1]]])(
    "throws RangeError for the intervals %j of 5 samples",
    (n) => {
      expect(() => mtieAt(new Float64Array(5), n)).toThrow(
        /ascending integers with 1 <= n < N = 5/,
      );
    },
  );
});

describe("timeIntervalError", () => {
  it("is the difference of time errors n apart (ITU-T G.810)", () => {
    expect([...timeIntervalError(Float64Array.from([1, 4, 9, 16]), 2)]).toEqual([8, 12]);
  });

  it("never exceeds MTIE at the same interval", () => {
    const x = Float64Array.from([0, 3, -1, 4, 4, 2, 9, -6, 5, 1, 0, 8]);
    for (let n = 1; n < 12; n++) {
      const greatest = Math.max(...timeIntervalError(x, n).map(Math.abs));
      expect(greatest).toBeLessThanOrEqual(mtie(x, n));
    }
  });

  it("throws RangeError naming n", () => {
    expect(() => timeIntervalError(new Float64Array(3), 3)).toThrow(/n must be an integer/);
  });
});
