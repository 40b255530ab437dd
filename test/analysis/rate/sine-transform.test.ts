import { describe, expect, it } from "vitest";
import { sineTransform } from "../../../src/judgement/index.ts";

describe("sineTransform", () => {
  it.each([1, 2, 7, 16, 19])("is its own inverse for n = %i", (n) => {
    const v = Float64Array.from({ length: n }, (_, i) => Math.cos(i * i));
    sineTransform(sineTransform(v)).forEach((x, i) => {
      expect(x).toBeCloseTo(v[i]!, 12);
    });
  });

  it("diagonalises the second difference, with eigenvalues 2 − 2 cos(πk/(n + 1))", () => {
    const n = 9;
    const v = Float64Array.from({ length: n }, (_, i) => Math.sin(i * i + 2));
    const difference = v.map((x, i) => 2 * x - (v[i - 1] ?? 0) - (v[i + 1] ?? 0));
    const w = sineTransform(v);
    sineTransform(difference).forEach((x, i) => {
      expect(x).toBeCloseTo((2 - 2 * Math.cos((Math.PI * (i + 1)) / (n + 1))) * w[i]!, 12);
    });
  });

  it("throws RangeError for an empty record", () => {
    expect(() => sineTransform(new Float64Array(0))).toThrow(/at least one sample/);
  });
});
