import { describe, expect, it } from "vitest";
import {
  endPoints,
  lineResponse,
  lineResponseBound,
  sumOfSquares,
  type Weighting,
} from "../../src/planning/index.ts";
import { stampsOf } from "./stamps-of.ts";

const samples: Weighting[] = [
  { kind: "line", stamps: 2, spacing: 3 },
  { kind: "line", stamps: 3, spacing: 0.7 },
  { kind: "line", stamps: 40, spacing: 1.3 },
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

describe("lineResponseBound", () => {
  // A run that gets longer, by kind: K readings, or what stands for them.
  const kinds: [string, (k: number) => Weighting][] = [
    ["a line", (k) => ({ kind: "line", stamps: k + 1, spacing: 1.3 })],
    ["end points", (k) => endPoints(k * 1.3, 1.3)],
    ["gates with gaps", (k) => ({ kind: "gates", readings: k, gate: 0.9, spacing: 1.3 })],
  ];
  const longest = 600;
  // Turns from stamp to stamp: slow, fast, next to a whole number, and rational.
  const turns = [
    1e-6,
    7e-4,
    0.004,
    0.013,
    0.03,
    0.0381,
    0.11,
    0.25,
    1 / 3,
    0.5,
    0.77,
    3.0004,
    41.993,
  ];

  it.each(kinds)("is not exceeded by any longer run, of %s", (_, weighting) => {
    for (const each of turns) {
      const f = each / 1.3;
      let most = 0;
      for (let k = longest; k >= 1; k--) {
        most = Math.max(most, lineResponse(weighting(k), f));
        expect(lineResponseBound(weighting(k), f)).toBeGreaterThanOrEqual(most * (1 - 1e-9));
      }
    }
  });

  it.each(kinds)(
    "is the response itself where a line turns by little within the run, of %s",
    (_, weighting) => {
      for (const k of [3, 30, 300]) {
        const f = 0.5 / (Math.PI * k * 1.3);
        const bound = lineResponseBound(weighting(k), f);
        expect(bound / lineResponse(weighting(k), f)).toBeCloseTo(1, 12);
      }
    },
  );
});
