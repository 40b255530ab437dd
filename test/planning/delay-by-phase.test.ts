import { describe, expect, it } from "vitest";
import { delayByPhase } from "../../src/planning/index.ts";
import { observatory, school } from "./scenario-of.ts";

describe("delayByPhase", () => {
  it("is null without a receiver", () => {
    expect(delayByPhase(school())).toBeNull();
  });

  it("follows the charge without noise: v(t) = θ for v' = (A·|sin| − v)/τ in small steps", () => {
    const quiet = observatory((changed) => {
      changed.receiver!.noiseV = 0;
      changed.drive!.amplitudeNoise = 0;
    });
    const { mean, variance } = delayByPhase(quiet)!;
    expect(Array.from(variance).every((each) => each === 0)).toBe(true);
    for (const i of [0, 100, 333, 700]) {
      // Heun's rule, 0.1 µs a step: an independent integration of the circuit equation.
      const step = 1e-7;
      const drive = (t: number) =>
        12 * Math.abs(Math.sin(2 * Math.PI * (1370 * t + i / mean.length)));
      let v = 0;
      let t = 0;
      while (v < 4.5) {
        const first = (drive(t) - v) / 0.01;
        const second = (drive(t + step) - v - step * first) / 0.01;
        v += (step * (first + second)) / 2;
        t += step;
      }
      expect(Math.abs(mean[i]! - t)).toBeLessThan(2 * step);
    }
  });
});
