import { describe, expect, it } from "vitest";
import { boundaryModes, noisePosterior, readingModes } from "../../../src/judgement/index.ts";
import { makeEdges } from "./power-law-noise.ts";

/** Sum of squares about the least-squares line. */
function residualSquares(x: Float64Array): number {
  const n = x.length;
  const mean = x.reduce((s, v) => s + v, 0) / n;
  let slope = 0;
  for (let i = 0; i < n; i++) slope += (i - (n - 1) / 2) * x[i]!;
  slope *= 12 / (n * (n * n - 1));
  return x.reduce((s, v, i) => s + (v - mean - slope * (i - (n - 1) / 2)) ** 2, 0);
}

const probabilityOf = (x: Float64Array, test: (source: string, drift: boolean) => boolean) =>
  noisePosterior(boundaryModes(x))
    .filter((h) => test(h.source, h.drift))
    .reduce((sum, h) => sum + h.probability, 0);

describe("noisePosterior of edges", () => {
  it.each([7, 40, 701])(
    "finds the level of white PM alone as the line's residuals have it, K = %i",
    (k) => {
      // Second differences know all of the residuals and nothing else; bands of modes cost a few in a thousand.
      const { measured } = makeEdges(k, { measurement: 1 }, `level ${k}`);
      const alone = noisePosterior(boundaryModes(measured)).find(
        (h) => h.source === "none" && !h.drift,
      )!;
      expect(alone.degreesOfFreedom).toBe(k - 1);
      expect(alone.level / (residualSquares(measured) / (k - 1))).toBeCloseTo(1, k > 600 ? 2 : 9);
    },
  );

  it("finds white FM alone as the variance of the single rates has it", () => {
    const { measured } = makeEdges(60, { whiteFm: 1 }, "white fm");
    const rates = measured.slice(1).map((x, i) => x - measured[i]!);
    const mean = rates.reduce((s, v) => s + v, 0) / 60;
    const variance = rates.reduce((s, v) => s + (v - mean) ** 2, 0) / 59;
    const most = noisePosterior(boundaryModes(measured))
      .filter((h) => h.source === "white_fm" && !h.drift)
      .reduce((a, b) => (b.ratio > a.ratio ? b : a));
    expect((most.level * most.ratio) / variance).toBeCloseTo(1, 2);
  });

  it("does not see offset or rate", () => {
    const { measured } = makeEdges(50, { measurement: 1, whiteFm: 0.1 }, "offset");
    const moved = measured.map((x, i) => x + 8 + 4 * i);
    noisePosterior(boundaryModes(moved)).forEach((h, i) => {
      const same = noisePosterior(boundaryModes(measured))[i]!;
      expect(h.probability).toBeCloseTo(same.probability, 6);
    });
  });

  it("tells drift, and its size", () => {
    const { measured } = makeEdges(300, { measurement: 1, drift: 1e-3 }, "drift");
    expect(probabilityOf(measured, (_, drift) => drift)).toBeGreaterThan(0.99);
    const best = noisePosterior(boundaryModes(measured)).reduce((a, b) =>
      b.probability > a.probability ? b : a,
    );
    // Within 4 of its own standard uncertainties (false alarm 6e-5).
    expect(Math.abs(best.driftEstimate - 1e-3)).toBeLessThan(4 * best.driftUncertainty);
  });

  it.each([
    ["none", { measurement: 1 }],
    ["white_fm", { measurement: 1, whiteFm: 1 }],
    ["flicker_fm", { measurement: 1, flickerFm: 1 }],
    ["random_walk_fm", { measurement: 1, randomWalkFm: 0.1 }],
  ])("prefers %s in a thousand readings of it", (source, noise) => {
    for (let s = 0; s < 5; s++) {
      const { measured } = makeEdges(1000, noise, `type ${source} ${s}`);
      expect(probabilityOf(measured, (found) => found === source)).toBeGreaterThan(0.5);
    }
  });

  it("has nothing to say about a record without scatter", () => {
    expect(noisePosterior(boundaryModes(new Float64Array(20)))).toEqual([]);
  });
});

describe("noisePosterior of readings with dead time", () => {
  it("finds the level of white readings as their variance has it", () => {
    const y = Float64Array.from({ length: 30 }, (_, i) => Math.sin(i * i));
    const mean = y.reduce((s, v) => s + v, 0) / 30;
    const variance = y.reduce((s, v) => s + (v - mean) ** 2, 0) / 29;
    const alone = noisePosterior(readingModes(y, 0.5)).find(
      (h) => h.source === "none" && !h.drift,
    )!;
    expect(alone.level).toBeCloseTo(variance, 12);
    expect(alone.degreesOfFreedom).toBe(29);
  });
});

describe("arguments", () => {
  it("of a wrong kind throw RangeError", () => {
    expect(() => boundaryModes(new Float64Array(3))).toThrow(/at least four/);
    expect(() => readingModes(new Float64Array(3), 1)).toThrow(/at least four/);
    expect(() => readingModes(new Float64Array(9), 0)).toThrow(/duty must lie/);
  });
});
