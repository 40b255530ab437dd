import { describe, expect, it } from "vitest";
import type { RecordColumns } from "../../../src/chain/index.ts";
import { treatOutlier } from "../../../src/lab/index.ts";

/** Five readings of ten cycles of 2 s, the middle one counted a cycle short. */
function record(): RecordColumns {
  const interval = Float64Array.of(20.001, 19.999, 20.002, 19.998, 20);
  const cycles = Float64Array.of(10, 10, 9, 10, 10);
  const zeros = new Float64Array(5);
  return {
    start: Float64Array.of(0, 20.001, 40, 60.002, 80),
    cycles,
    interval,
    error: interval.map((value, i) => cycles[i]! * 2 - value),
    errorOverRun: zeros,
    steadyError: zeros,
    startErrorOverRun: zeros,
    startSteadyError: zeros,
  };
}

describe("treatOutlier", () => {
  it("finds the reading that is a whole cycle out, and leaves it where it is to be kept", () => {
    const { treated, at } = treatOutlier(record(), 2, "kept");
    expect(at).toBe(2);
    expect(treated).toEqual(record());
  });

  it("repairs it by the cycle that is missing, jitter and all", () => {
    const { treated } = treatOutlier(record(), 2, "repaired");
    expect([...treated.cycles]).toEqual([10, 10, 10, 10, 10]);
    expect(treated.error[2]).toBeCloseTo(20 - 20.002, 12);
    expect(treated.error[1]).toBe(record().error[1]);
  });

  it("drops it and leaves a gap", () => {
    const { treated } = treatOutlier(record(), 2, "dropped");
    expect([...treated.interval].map(Number.isNaN)).toEqual([false, false, true, false, false]);
  });

  it("looks for none where none is said to be, and finds none where none is", () => {
    expect(treatOutlier(record(), 2, "none").at).toBe(-1);
    const sound = treatOutlier(record(), 2, "repaired").treated;
    expect(treatOutlier(sound, 2, "repaired").at).toBe(-1);
  });
});
