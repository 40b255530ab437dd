import { describe, expect, it } from "vitest";
import { deviationChart, errorAgainstGateChart } from "../../src/view/chart/index.ts";
import { dataPaths, pathPoints } from "./path-points.ts";
import { elementsOf, textOf } from "./read-xml.ts";

const options = { title: "", idPrefix: "a" };
const tau = Float64Array.of(1, 10, 100, 1000);
const guide = (slope: number) => ({
  name: "white PM",
  slope,
  at: 1,
  level: 1e-6,
  from: 1,
  to: 1000,
});

describe("deviationChart", () => {
  it("draws a slope of −1 as a slope of −1: decades are square", () => {
    const series = [{ name: "Allan deviation", tau, deviation: tau.map((t) => 1e-6 / t) }];
    const picture = deviationChart({ series, guides: [guide(-1), guide(-0.5)] }, options);
    const [steep, shallow, curve] = dataPaths(picture).map(pathPoints);
    const slope = (points: [number, number][]) => {
      const [[x1, y1], [x2, y2]] = [points[0]!, points.at(-1)!];
      return (y1 - y2) / (x2 - x1);
    };
    // Coordinates are rounded to 0.01 px over some 400 px.
    expect(slope(steep!)).toBeCloseTo(-1, 3);
    expect(slope(shallow!)).toBeCloseTo(-0.5, 3);
    expect(slope(curve!)).toBeCloseTo(-1, 3);
    expect(curve).toHaveLength(4);
  });

  it("draws a bar with two ends for every confidence interval, and none where there is none", () => {
    const deviation = Float64Array.of(4, 3, 2, 1);
    const series = [
      {
        name: "Allan deviation",
        tau,
        deviation,
        low: Float64Array.of(3, 2, 1, NaN),
        high: Float64Array.of(5, 4, 3, NaN),
      },
    ];
    const [bars] = dataPaths(deviationChart({ series, guides: [] }, options)).map(pathPoints);
    expect(bars).toHaveLength(3 * 3 * 2);
  });

  it("leaves a gap where a deviation is missing and names every series once", () => {
    const deviation = Float64Array.of(4, NaN, 2, 0);
    const series = [{ name: "Hadamard deviation", tau, deviation }];
    const picture = deviationChart({ series, guides: [], unit: "s" }, options);
    expect(dataPaths(picture)[0]!.attrs.d!.match(/M/g)).toHaveLength(2);
    const texts = elementsOf(picture, "text").map(textOf);
    expect(texts.filter((text) => text === "Hadamard deviation")).toHaveLength(1);
    expect(texts).toContain("Deviation of time error (s)");
    expect(texts).toContain("Averaging time τ (s)");
  });

  it("refuses arrays of different length, and nothing to draw", () => {
    const bad = { name: "x", tau, deviation: Float64Array.of(1) };
    expect(() => deviationChart({ series: [bad], guides: [] }, options)).toThrow(
      'the records of "x" must be of equal length, got 4 and 1',
    );
    const none = { name: "x", tau, deviation: Float64Array.of(0, NaN, -1, 0) };
    expect(() => deviationChart({ series: [none], guides: [] }, options)).toThrow(RangeError);
  });
});

describe("errorAgainstGateChart", () => {
  it("names each law by its slope and its cause", () => {
    const laws = [-0.5, -1, -1.5].map((slope) => ({ ...guide(slope), name: "cause" }));
    const series = [{ name: "back to back", gate: tau, error: tau.map((t) => 1e-6 / t) }];
    const texts = elementsOf(errorAgainstGateChart({ series, laws }, options), "text").map(textOf);
    for (const law of ["slope −1/2: cause", "slope −1: cause", "slope −3/2: cause"]) {
      expect(texts).toContain(law);
    }
    expect(texts).toContain("Gate length T (s)");
  });
});
