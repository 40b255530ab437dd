import { describe, expect, it } from "vitest";
import { cosineTransform } from "../../../src/judgement/index.ts";

describe("cosineTransform", () => {
  it.each([1, 2, 5, 8, 13])("agrees with its definition for n = %i", (n) => {
    const v = Float64Array.from({ length: n }, (_, i) => Math.sin(i * i + 1));
    const w = cosineTransform(v);
    for (let k = 0; k < n; k++) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += v[i]! * Math.cos((Math.PI * k * (2 * i + 1)) / (2 * n));
      expect(w[k]).toBeCloseTo(sum * Math.sqrt((k === 0 ? 1 : 2) / n), 12);
    }
  });

  it("leaves nothing but the mean of a constant", () => {
    const w = cosineTransform(new Float64Array(6).fill(2));
    expect(w[0]).toBeCloseTo(2 * Math.sqrt(6), 12);
    for (let k = 1; k < 6; k++) expect(w[k]).toBeCloseTo(0, 12);
  });

  it("throws RangeError for an empty record", () => {
    expect(() => cosineTransform(new Float64Array(0))).toThrow(/at least one sample/);
  });
});
