import { describe, expect, it } from "vitest";
import { lineResponse, lineResponseBound } from "../../src/planning/line-response.ts";
import { sumOfSquares, type Weighting } from "../../src/planning/weighting.ts";
import { stampsOf } from "./stamps-of.ts";

const samples: Weighting[] = [
  { kind: "line", stamps: 2, spacing: 3 },
  { kind: "line", stamps: 3, spacing: 0.7 },
  { kind: "line", stamps: 40, spacing: 1.3 },
  { kind: "half_means", stamps: 40, spacing: 1.3 },
  { kind: "gates", readings: 1, gate: 2, spacing: 2 },
  { kind: "gates", readings: 7, gate: 2, spacing: 3.3 },
];

describe("lineResponse", () => {
  it("is the squared Fourier transform of the weights, folded frequencies too", () => {
    for (const weighting of samples) {
      const { times, weights } = stampsOf(weighting);
      for (const f of [1e-7, 1e-4, 0.013, 0.21, 0.5, 1.7, 23.456, 411.3]) {
        let re = 0;
        let im = 0;
        for (let k = 0; k < times.length; k++) {
          re += weights[k]! * Math.cos(2 * Math.PI * f * times[k]!);
          im += weights[k]! * Math.sin(2 * Math.PI * f * times[k]!);
        }
        const direct = re * re + im * im;
        const rounding = 1e-13 * sumOfSquares(weighting);
        expect(Math.abs(lineResponse(weighting, f) - direct)).toBeLessThan(
          1e-6 * direct + rounding,
        );
        expect(lineResponseBound(weighting, f)).toBeGreaterThanOrEqual(
          direct * (1 - 1e-9) - rounding,
        );
      }
    }
  });
});
