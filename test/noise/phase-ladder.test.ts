import { describe, expect, it } from "vitest";
import { phaseLadder } from "../../src/noise/index.ts";

const levels = {
  whitePmRms: 0,
  h1: 3,
  h0: 0,
  hMinus1: 0,
  hMinus2: 0,
  bandwidthHz: 1e4,
  flickerLongest: 1e6,
};

describe("phaseLadder", () => {
  it.each([1e-3, 0.02, 3])("has the spectrum S_x = h1/(4π²f) (IEEE Std 1139) at %s Hz", (f) => {
    const { timeConstants, diffusions } = phaseLadder(levels, 1e-3);
    const w = 2 * Math.PI * f;
    let s = 0;
    timeConstants.forEach((time, k) => {
      s += (2 * diffusions[k]!) / (1 / (time * time) + w * w);
    });
    // Nothing fills in below the end of the ladder: at 3 Hz of 10 kHz a deficit of 2/π·3e-4.
    expect(Math.abs(s / (3 / (4 * Math.PI ** 2 * f)) - 1)).toBeLessThan(1.5e-3);
  });

  it("keeps the number of processes, and so the variance, whatever is fast", () => {
    const fine = phaseLadder(levels, 1e-3);
    const coarse = phaseLadder(levels, 1e3);
    expect(coarse.fastTimes.length).toBeGreaterThan(0);
    expect(coarse.fastTimes.length + coarse.timeConstants.length).toBe(
      fine.fastTimes.length + fine.timeConstants.length,
    );
    expect(coarse.variance).toBe(fine.variance);
  });

  it("gives nothing for h1 = 0", () => {
    const none = phaseLadder({ ...levels, h1: 0 }, 1);
    expect([none.timeConstants.length, none.fastTimes.length, none.variance]).toEqual([0, 0, 0]);
  });
});
