import { describe, expect, it } from "vitest";
import { timeErrorFromRates } from "../../../src/analysis/index.ts";

describe("timeErrorFromRates", () => {
  it("sums up readings from zero", () => {
    expect([...timeErrorFromRates(Float64Array.from([1, 2, -4]), 0.5)]).toEqual([
      0, 0.5, 1.5, -0.5,
    ]);
  });

  it("keeps small rates beside a large one: a million times 1e-16 after 1", () => {
    const y = new Float64Array(1_000_001).fill(1e-16);
    y[0] = 1;
    expect(timeErrorFromRates(y, 1)[1_000_001]! - 1).toBeCloseTo(1e-10, 15);
  });

  it("does not know the time error after a gap", () => {
    const x = timeErrorFromRates(Float64Array.from([1, Number.NaN, 1]), 1);
    expect([...x]).toEqual([0, 1, Number.NaN, Number.NaN]);
  });

  it("throws RangeError naming tau0", () => {
    expect(() => timeErrorFromRates(new Float64Array(3), 0)).toThrow(/tau0 must be > 0/);
  });
});
