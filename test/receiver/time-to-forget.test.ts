import { describe, expect, it } from "vitest";
import { timeToForget } from "../../src/stages/receiver/index.ts";
import { receiver } from "./samples.ts";

describe("timeToForget", () => {
  it("is what an exponential decay to a thousandth of the noise takes", () => {
    // The circuit's law: 12 V fall to 0.15 mV in τ·ln 80000.
    const t = timeToForget({ ...receiver, timeConstant: 0.01, noiseV: 0.15 }, 12);
    expect(12 * Math.exp(-t / 0.01)).toBeCloseTo(0.15e-3, 12);
  });

  it("leaves a two thousandth of the noise before, however weak the tone", () => {
    const t = timeToForget({ ...receiver, timeConstant: 1, noiseV: 1 }, 0.01);
    expect(Math.exp(-t)).toBeCloseTo(0.5e-3, 12);
  });

  it("is 0 without a leak, and no longer than without noise", () => {
    expect(timeToForget({ ...receiver, leak: false }, 12)).toBe(0);
    const quiet = timeToForget({ ...receiver, noiseV: 0 }, 12);
    expect(quiet).toBeGreaterThan(timeToForget({ ...receiver, noiseV: 0.15 }, 12));
  });
});
