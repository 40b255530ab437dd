import { describe, expect, it } from "vitest";
import {
  modifiedAllanDeviation,
  modifiedTotalDeviation,
  timeDeviation,
  timeTotalDeviation,
} from "../../../src/analysis/index.ts";

const x = Float64Array.from({ length: 9 }, (_, i) => i * i);

// NIST SP 1065, 5.2: N − 3m + 1 terms, so that 3m = N is the last that fits.
describe.each([modifiedAllanDeviation, timeDeviation, modifiedTotalDeviation, timeTotalDeviation])(
  "%o",
  (deviation) => {
    const { name } = deviation;

    it("takes a term as long as the record, and says by its own name and its own N what does not fit", () => {
      expect(deviation(x, 1, 3)).toBeGreaterThanOrEqual(0);
      const message = `${name}: m must be an integer with 1 <= m and 3m <= N = 9, got 4`;
      expect(() => deviation(x, 1, 4)).toThrow(new RangeError(message));
      expect(() => deviation(x, 0, 1)).toThrow(`${name}: tau0 must be > 0 s and finite, got 0`);
    });
  },
);

describe.each([modifiedTotalDeviation, timeTotalDeviation])("%o", (deviation) => {
  it("refuses a bias that is none by its own name", () => {
    expect(() => deviation(x, 1, 2, 0)).toThrow(`${deviation.name}: bias must be > 0`);
    expect(() => deviation(x, 1, 2, Number.POSITIVE_INFINITY)).toThrow(/bias must be > 0/);
  });
});
