import { describe, expect, it } from "vitest";
import { measurements } from "../../src/planning/index.ts";
import { school } from "./scenario-of.ts";

describe("measurements", () => {
  it("looks at a run of whole days at all hours: a daily wave of the rate changes which edges a gate catches", () => {
    const lateOver = (dailyAmplitudeK: number) => {
      const scenario = school((changed) => {
        changed.length = 8 * 86400;
        changed.environment = { meanC: 20, dailyAmplitudeK, dailyPeak: 0, rampKPerDay: 0 };
        changed.reference.temperature = { linearPerK: 1e-5, parabolicPerK2: 0, turnoverC: 20 };
      });
      const { measure } = measurements(scenario, "clock", null);
      const setting = { technique: "reciprocal", gate: 10, deadTime: 10.5 } as const;
      const { means } = measure(setting).timing.selection!;
      return means[0]! - means[1]!;
    };
    // A gate longer by δ than its ten periods takes the tenth edge where that is late by δ more than the one it began
    // with: E[g; g > g₀ + δ] = (σ/√2)·φ(δ/(σ√2)), φ the Gaussian density; δ = 10 s·y at eight hours of the day.
    const sigma = 1e-3;
    const late = Array.from({ length: 8 }, (_, i) => {
      const rate = 5e-5 * Math.cos((2 * Math.PI * (i + 0.5)) / 8);
      const delta = 10 * rate;
      return (
        (sigma / Math.SQRT2) * Math.exp(-((delta / sigma / 2) ** 2)) * (1 / Math.sqrt(2 * Math.PI))
      );
    });
    const mean = late.reduce((sum, each) => sum + each, 0) / 8;
    // Errors are followed in cells of σ/20.
    expect(lateOver(5) / mean).toBeCloseTo(1, 2);
    expect(lateOver(0) / (sigma / 2 / Math.sqrt(Math.PI))).toBeCloseTo(1, 2);
  });
});
