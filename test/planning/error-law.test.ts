import { describe, expect, it } from "vitest";
import { RandomStream } from "../../src/numeric/index.ts";
import { delayErrors } from "../../src/planning/index.ts";
import {
  errorCells,
  errorLaw,
  errorReach,
  errorWidth,
  gaussianLaw,
} from "../../src/stages/counter/index.ts";
import { BurstDetector } from "../../src/stages/receiver/index.ts";
import { observatory, school } from "./scenario-of.ts";

const cellAt = (x: number) => Math.round((x + errorReach) / errorWidth);

describe("errorLaw", () => {
  it("has the tabulated tails of a Gaussian", () => {
    // Abramowitz & Stegun, table 26.1: Q(1) = 0.158655, Q(2) = 0.022750, Q(3) = 0.001350.
    expect(gaussianLaw.above[cellAt(0)]).toBeCloseTo(0.5, 12);
    expect(gaussianLaw.above[cellAt(1)]).toBeCloseTo(0.158655, 4);
    expect(gaussianLaw.above[cellAt(2)]).toBeCloseTo(0.02275, 4);
    expect(gaussianLaw.above[cellAt(3)]).toBeCloseTo(0.00135, 5);
    // The part of the mean above 0 is 1/√(2π).
    expect(gaussianLaw.meanAbove[cellAt(0)]).toBeCloseTo(1 / Math.sqrt(2 * Math.PI), 3);
  });

  it("refuses another number of cells", () => {
    expect(() => errorLaw(new Float64Array(errorCells + 1))).toThrow(RangeError);
  });
});

describe("delayErrors", () => {
  it("is the law of delays drawn from the detector, tone locked and free", () => {
    for (const lock of ["locked", "free"] as const) {
      const scenario = observatory((changed) => {
        changed.drive!.carrierLock = lock;
      });
      const { receiver, drive } = scenario;
      const stream = new RandomStream("delays", lock);
      const detector = new BurstDetector(receiver!, drive!, stream);
      const n = 4000;
      const delays = Float64Array.from({ length: n }, () => {
        detector.begin();
        const amplitude = drive!.amplitudeV * (1 + drive!.amplitudeNoise * stream.normal());
        return detector.detect(lock === "locked" ? 0 : stream.uniform(), amplitude);
      }).sort();
      const mean = delays.reduce((sum, delay) => sum + delay / n, 0);
      const rms = Math.sqrt(delays.reduce((sum, delay) => sum + (delay - mean) ** 2 / n, 0));
      const law = delayErrors(scenario)!;
      let worst = 0;
      let below = 0;
      for (let cell = 0; cell <= errorCells; cell++) {
        const limit = mean + rms * (-errorReach + cell * errorWidth);
        while (below < n && delays[below]! < limit) below++;
        worst = Math.max(worst, Math.abs(1 - law.above[cell]! - below / n));
      }
      // Kolmogorov and Smirnov: beyond 1.95/√n one time in a thousand; 0.01 on top for mean and rms of the sample,
      // which shift steep flanks.
      expect(worst).toBeLessThan(1.95 / Math.sqrt(n) + 0.01);
    }
  });

  it("is not there without a receiver", () => {
    expect(delayErrors(school())).toBeNull();
  });
});
