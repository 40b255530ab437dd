import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  fewestReadings,
  lengthOf,
  readingsIn,
  selectionExcess,
  weightingOf,
} from "../../src/planning/index.ts";
import { gateTiming, readingExcess } from "../../src/stages/counter/index.ts";

const sidereal = 1 / 1.00273790935;
const reciprocal = (gate: number | "single", deadTime: number) =>
  gateTiming({ technique: "reciprocal", gate, deadTime }, [sidereal], 1e-3);

describe("gateTiming", () => {
  it("holds 51 sidereal seconds in a gate of 50 s: the first edge after it has lasted that long", () => {
    expect(reciprocal(50, 0).gate).toBeCloseTo(51 * sidereal, 9);
    expect(reciprocal("single", 0).gate).toBeCloseTo(sidereal, 12);
  });

  it("starts a reading with the first edge after the dead time", () => {
    const timing = reciprocal("single", 2.5);
    expect(timing.spacing).toBeCloseTo(4 * sidereal, 9);
    expect(weightingOf(timing, "line_fit", 5).kind).toBe("gates");
  });

  it("stamps the first edge after each start of a time-interval counter", () => {
    const setting = { technique: "time_interval", gate: 10, deadTime: 0 } as const;
    const timing = gateTiming(setting, [sidereal], 1e-3);
    expect(timing.spacing).toBe(10);
    expect(fewestReadings(timing)).toBe(2);
    expect(weightingOf(timing, "mean_of_readings", 31)).toEqual({
      kind: "line",
      stamps: 2,
      spacing: 300,
      step: 10,
    });
  });

  it("takes as many readings from a run as the run was made for", () => {
    const settings = fc.record({
      technique: fc.constantFrom("reciprocal", "direct", "time_interval"),
      gate: fc.integer({ min: 1, max: 1000 }),
      deadTime: fc.constantFrom(0, 0.3, 20),
    });
    fc.assert(
      fc.property(settings, fc.integer({ min: 1, max: 1e9 }), (setting, readings) => {
        const timing = gateTiming(setting as Parameters<typeof gateTiming>[0], [sidereal], 1e-6);
        const length = lengthOf(timing, readings);
        expect(readingsIn(timing, length)).toBe(readings);
        expect(readingsIn(timing, length - 0.001 * timing.spacing)).toBe(readings - 1);
      }),
      { seed: 2005, numRuns: 50 },
    );
  });
});

describe("readingExcess", () => {
  it("is what a difference of two stamps varies by beyond two independent edges (own algebra)", () => {
    const selection = {
      means: [0.5, 0.2],
      variances: [0.7, 0.8],
      covariances: [0.1, 0.05],
      edges: [3, 1],
      firstMean: 0.3,
      firstVariance: 0.9,
      meanSquare: 0.5,
    };
    const timing = { gate: 2, spacing: 3, wait: 1, isStamped: false, selection };
    // Two independent edges of σ = 0.6 over a gate of 2 s.
    expect(readingExcess(timing, 0.6)).toBeCloseTo(0.5 - (2 * 0.36) / 4, 14);
    // A run of one reading begins with the first edge of all.
    const first = 0.7 + 0.9 - 2 * 0.1 - 2 * 0.36 + (0.5 - 0.3) ** 2;
    expect(selectionExcess(timing, "mean_of_readings", 1, 0.6)).toBeCloseTo(first / 4, 14);
  });
});

describe("selectionExcess", () => {
  it("adds nothing where no edge can be mistaken for another", () => {
    expect(selectionExcess(reciprocal(50.5, 0), "line_fit", 40, 1e-3)).toBe(0);
  });

  it("leaves a bias that averaging does not lessen where only one end of a gate is chosen", () => {
    const setting = { technique: "reciprocal", gate: 10, deadTime: 0.5 } as const;
    const timing = gateTiming(setting, [1], 1e-3);
    const at = (readings: number) =>
      Math.sqrt(
        2e-6 / (readings * timing.gate ** 2) +
          selectionExcess(timing, "mean_of_readings", readings, 1e-3),
      );
    // The edge at the end of a whole number of periods is taken if it comes later than the start edge did; the
    // mean of the later of two Gaussians is σ/√π, half the time: 0.282 σ late on the average.
    expect((at(1e9) * timing.gate) / 1e-3).toBeCloseTo(1 / (2 * Math.sqrt(Math.PI)), 2);
    expect(at(1e9) / at(1e7)).toBeCloseTo(1, 2);
  });
});
