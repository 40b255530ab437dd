import { describe, expect, it } from "vitest";
import { flickerPmAtEnds, flickerPmInRecord, flickerPmOfLine, flickerPmStructure, lineFitSlope } from "../../../src/judgement/index.ts";
import { makeEdges } from "./power-law-noise.ts";

describe("flickerPmStructure", () => {
  it("is the integral of (1 − cos 2πfj)/(2 sin πf) over −½ < f < ½", () => {
    const d = flickerPmStructure(12);
    for (const j of [1, 2, 5, 12]) {
      // Midpoint rule, which the smooth even integrand suits; twice the half range.
      const n = 20000;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const f = (i + 0.5) / (2 * n);
        sum += (1 - Math.cos(2 * Math.PI * f * j)) / (2 * Math.sin(Math.PI * f)) / n;
      }
      expect(d[j]! / sum).toBeCloseTo(1, 6);
    }
  });

  it("goes on as its asymptotic series", () => {
    expect(flickerPmAtEnds(400) / (2 * flickerPmStructure(400)[400]!)).toBeCloseTo(1, 6);
  });
});

describe("flickerPmOfLine and flickerPmInRecord", () => {
  it("are what lines and mean squares of made flicker PM (Kasdin & Walter 1992) have", () => {
    const intervals = 60;
    const runs = 3000;
    const edge = Float64Array.from({ length: intervals + 1 }, (_, i) => i);
    let slopes = 0;
    let squares = 0;
    for (let s = 0; s < runs; s++) {
      // Level 1/π: white noise of unit variance filtered to 1/(2 sin πf).
      const { measured } = makeEdges(intervals, { flickerPm: 1 / Math.PI }, `line ${s}`);
      slopes += lineFitSlope(edge, measured, 1) ** 2 / runs;
      const mean = measured.reduce((sum, x) => sum + x, 0) / measured.length;
      squares += measured.reduce((sum, x) => sum + (x - mean) ** 2, 0) / measured.length / runs;
    }
    // A variance of 3000 draws: 2.6 % each; 4σ.
    expect(Math.abs(slopes / flickerPmOfLine(intervals) - 1)).toBeLessThan(0.11);
    expect(Math.abs(squares / flickerPmInRecord(intervals) - 1)).toBeLessThan(0.11);
  });

  it("tend to a constant over K²", () => {
    expect((flickerPmOfLine(2000) * 4) / flickerPmOfLine(1000)).toBeCloseTo(1, 2);
    expect(flickerPmOfLine(8000) / flickerPmOfLine(2000)).toBeCloseTo(1 / 16, 10);
  });
});
