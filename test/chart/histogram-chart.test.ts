import { describe, expect, it } from "vitest";
import { histogramChart } from "../../src/view/chart/index.ts";
import { dataPaths } from "./path-points.ts";
import { elementsOf, textOf } from "./read-xml.ts";

const options = { title: "", idPrefix: "a", width: 1200 };

describe("histogramChart", () => {
  it("names each row by gate, count and spread", () => {
    const gates = [
      // Standard deviation of 1, 2, 3, 4 with n − 1: √(5/3) = 1.29.
      { gate: 1, reading: Float64Array.of(1, 2, 3, 4) },
      { gate: 60, reading: Float64Array.of(2.5, NaN) },
    ];
    const texts = elementsOf(
      histogramChart({ gates, truth: null, unit: "1" }, options),
      "text",
    ).map(textOf);
    expect(texts).toContain("gate 1 s: 4 readings, spread 1.3");
    expect(texts).toContain("gate 60 s: 1 reading");
  });

  it("draws bars whose heights are in proportion to counts, the highest 0.86 of a row", () => {
    const reading = Float64Array.from([...Array(30).fill(0), ...Array(10).fill(1)]);
    const picture = histogramChart({ gates: [{ gate: 1, reading }], truth: 0 }, options);
    const bars = dataPaths(picture).find((node) => node.attrs["fill-opacity"] !== undefined)!;
    const heights = [...bars.attrs.d!.matchAll(/v-([\d.]+)/g)].map((match) => Number(match[1]));
    expect(heights).toHaveLength(2);
    expect(heights[0]! / heights[1]!).toBeCloseTo(3, 2);
  });

  it("counts every reading once: areas add up over bins", () => {
    const reading = Float64Array.from({ length: 500 }, (_, i) => ((i * 37) % 101) / 101);
    const picture = histogramChart({ gates: [{ gate: 1, reading }], truth: null }, options);
    const bars = dataPaths(picture).find((node) => node.attrs["fill-opacity"] !== undefined)!;
    const heights = [...bars.attrs.d!.matchAll(/v-([\d.]+)/g)].map((match) => Number(match[1]));
    const tallest = Math.max(...heights);
    const counts = heights.map((height) => height / tallest);
    const total = counts.reduce((sum, count) => sum + count, 0);
    // 500 readings in whole numbers: some count of the highest bar makes all others whole.
    const highest = 500 / total;
    for (const count of counts) {
      expect(Math.abs(count * highest - Math.round(count * highest))).toBeLessThan(0.02);
    }
  });

  it("refuses nothing to draw", () => {
    const gates = [{ gate: 1, reading: Float64Array.of(NaN) }];
    expect(() => histogramChart({ gates, truth: 1 }, options)).toThrow(
      "at least one finite reading",
    );
    expect(() => histogramChart({ gates: [], truth: null }, options)).toThrow(RangeError);
  });
});
