import { describe, expect, it } from "vitest";
import { rateLadder } from "../../src/noise/index.ts";

const levels = {
  whitePmRms: 0,
  h1: 0,
  h0: 0.5,
  hMinus1: 3,
  hMinus2: 0.2,
  bandwidthHz: 100,
  flickerLongest: 1e6,
};

describe("rateLadder", () => {
  it.each([1e-3, 0.02, 3])("has the spectrum h0 + h-1/f + h-2/f² (IEEE Std 1139) at %s Hz", (f) => {
    const { timeConstants, diffusions, whiteLevel } = rateLadder(levels, 1);
    const w = 2 * Math.PI * f;
    let s = whiteLevel;
    timeConstants.forEach((time, k) => {
      s += (2 * diffusions[k]!) / (1 / (time * time) + w * w);
    });
    expect(Math.abs(s / (0.5 + 3 / f + 0.2 / (f * f)) - 1)).toBeLessThan(1e-3);
  });

  it("gives h0 alone where there is nothing else", () => {
    const { timeConstants, whiteLevel } = rateLadder({ ...levels, hMinus1: 0, hMinus2: 0 }, 1);
    expect(timeConstants.length).toBe(0);
    expect(whiteLevel).toBe(0.5);
  });

  it("puts the random walk last", () => {
    const { timeConstants, diffusions } = rateLadder(levels, 1);
    expect(timeConstants[timeConstants.length - 1]).toBe(Infinity);
    // h-2 = q/(2π²) for a Wiener process of q a second (IEEE Std 1139).
    expect(diffusions[diffusions.length - 1]! / (2 * Math.PI ** 2)).toBeCloseTo(0.2, 14);
  });
});
