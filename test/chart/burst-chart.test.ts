import { describe, expect, it } from "vitest";
import { burstChart } from "../../src/view/chart/index.ts";
import { dataPaths, pathPoints } from "./path-points.ts";
import { elementsOf, textOf } from "./read-xml.ts";

const options = { title: "", idPrefix: "a" };
const time = Float64Array.of(0, 0.01, 0.02, 0.03, 0.04);
const input = {
  time,
  voltage: Float64Array.of(0, 2, 4, 6, 3),
  threshold: 4,
  burst: 0.03,
  delay: 0.02,
  number: 12,
};

describe("burstChart", () => {
  it("marks the crossing where curve and threshold meet, and writes the delay", () => {
    const picture = burstChart(input, options);
    const [threshold, curve] = dataPaths(picture).map(pathPoints);
    const [dot] = elementsOf(picture, "circle");
    expect(Number(dot!.attrs.cx)).toBeCloseTo(curve![2]![0], 1);
    expect(Number(dot!.attrs.cy)).toBeCloseTo(curve![2]![1], 1);
    expect(threshold![0]![1]).toBeCloseTo(curve![2]![1], 1);
    const texts = elementsOf(picture, "text").map(textOf);
    expect(texts).toContain("delay 20.0 ms");
    expect(texts).toContain("threshold, 4 V");
    expect(texts).toContain("Time after the start of the burst (ms)");
    expect(texts).toContain("Voltage (V)");
  });

  it("shades the burst to scale", () => {
    const picture = burstChart(input, options);
    const group = elementsOf(picture, "g").find((node) => "clip-path" in node.attrs)!;
    const [band] = elementsOf(group, "rect");
    const x = pathPoints(dataPaths(picture)[1]!).map(([at]) => at);
    expect(Number(band!.attrs.width)).toBeCloseTo(x[3]! - x[0]!, 1);
  });

  it("says so where the burst makes no step", () => {
    const picture = burstChart({ ...input, threshold: 9, delay: null }, options);
    expect(elementsOf(picture, "circle")).toEqual([]);
    expect(textOf(elementsOf(picture, "title")[0]!)).toBe("Burst 12: no step");
    expect(textOf(elementsOf(picture, "desc")[0]!)).toContain("not crossed: no step");
  });

  it("refuses arrays of different length, and nothing to draw", () => {
    const tone = Float64Array.of(1);
    expect(() => burstChart({ ...input, tone }, options)).toThrow("equal length, got 5 and 1");
    const voltage = time.map(() => NaN);
    expect(() => burstChart({ ...input, voltage }, options)).toThrow("at least one finite value");
  });
});
