import { describe, expect, it } from "vitest";
import { amplitudeNodes } from "../../src/stages/receiver/index.ts";
import { receiver, tone } from "./samples.ts";

describe("amplitudeNodes", () => {
  it.each([0.1, 0.3, 1, 3])(
    "averages what varies over the receiver's noise, %s times that of the amplitude",
    (share) => {
      const relative = 0.02;
      const spread = share * relative;
      const set = { ...receiver, noiseV: spread * receiver.thresholdV };
      const nodes = amplitudeNodes(set, { ...tone, amplitudeNoise: relative }, 7);
      const kernel = (amplitudeV: number) =>
        Math.exp(-(((amplitudeV / tone.amplitudeV - 1.01) / spread) ** 2) / 2);
      let sum = 0;
      let whole = 0;
      for (const { amplitudeV, weight } of nodes) {
        sum += weight * kernel(amplitudeV);
        whole += weight;
      }
      // Two Gaussians folded: s/√(s² + r²)·exp(−0.01²/(2(s² + r²))).
      const both = spread ** 2 + relative ** 2;
      const exact = (spread / Math.sqrt(both)) * Math.exp(-(0.01 ** 2) / both / 2);
      expect(Math.abs(sum / whole / exact - 1)).toBeLessThan(1e-5);
    },
  );

  it("is the amplitude itself where it has no noise, and never below zero", () => {
    const quiet = amplitudeNodes(receiver, { ...tone, amplitudeNoise: 0 }, 5);
    expect(quiet).toEqual([{ amplitudeV: tone.amplitudeV, weight: 1 }]);
    const wild = amplitudeNodes(receiver, { ...tone, amplitudeNoise: 0.5 }, 5);
    expect(wild.every(({ amplitudeV }) => amplitudeV > 0)).toBe(true);
  });
});
