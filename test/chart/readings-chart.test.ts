import { describe, expect, it } from "vitest";
import { readingsChart } from "../../src/view/chart/index.ts";
import { dataPaths, pathPoints } from "./path-points.ts";
import { elementsOf, textOf } from "./read-xml.ts";

const options = { title: "", idPrefix: "a" };
const input = {
  time: Float64Array.of(0, 50, 100, 150),
  reading: Float64Array.of(-1, 1, -1, 1),
  mean: Float64Array.of(-1, 0, -1 / 3, 0),
  halfWidth: Float64Array.of(NaN, 2, 1, 0.5),
  truth: 0.25,
};
const textsOf = (picture: ReturnType<typeof readingsChart>) =>
  elementsOf(picture, "text").map(textOf);

describe("readingsChart", () => {
  it("draws a dot for every reading, the band, the truth as a level line, and the mean", () => {
    const [dots, band, truth, mean] = dataPaths(readingsChart(input, options));
    expect(band!.attrs["fill-opacity"]).toBe("0.25");
    // Three readings have an interval: there and back.
    expect(pathPoints(band!)).toHaveLength(6);
    expect(pathPoints(dots!)).toHaveLength(4);
    const [from, to] = pathPoints(truth!);
    expect(from![1]).toBe(to![1]);
    expect(pathPoints(mean!)).toHaveLength(4);
    // Truth 0.25 lies an eighth of the span above the middle of readings at ±1.
    const [low, high] = [pathPoints(dots!)[0]![1], pathPoints(dots!)[1]![1]];
    expect((low - from![1]) / (low - high)).toBeCloseTo(0.625, 3);
  });

  it("has the name of the readings beside them, also where all lie below the truth", () => {
    const reading = Float64Array.of(-40, -42, -38, -41);
    const mean = reading.map(() => Number.NaN);
    const picture = readingsChart({ ...input, reading, mean, halfWidth: mean }, options);
    const heightOf = (name: string) =>
      Number(elementsOf(picture, "text").find((text) => textOf(text) === name)!.attrs.y);
    // Downwards on the page: the truth 0.25 stands above, and its name, as readings of −38 and less do below.
    const [dots] = dataPaths(picture);
    const highest = Math.min(...pathPoints(dots!).map(([, y]) => y));
    expect(heightOf("truth")).toBeLessThan(heightOf("single readings"));
    expect(Math.abs(heightOf("single readings") - highest)).toBeLessThan(20);
  });

  it("keeps a wild reading from squeezing the others, and says so", () => {
    const time = Float64Array.from({ length: 40 }, (_, i) => i);
    const reading = time.map((_, i) => (i === 7 ? 1000 : (i % 5) - 2));
    const picture = readingsChart(
      { ...input, time, reading, mean: time, halfWidth: time },
      options,
    );
    expect(textsOf(picture)).toContain("1 reading beyond the scale");
    expect(textOf(elementsOf(picture, "desc")[0]!)).toMatch(/1 of the readings lie beyond/);
  });

  it("shows crowds as strokes from lowest to highest, two points a pixel column at most", () => {
    const time = Float64Array.from({ length: 20000 }, (_, i) => i);
    const reading = time.map((_, i) => ((i * 7919) % 1000) / 1000);
    const picture = readingsChart(
      { ...input, time, reading, mean: reading, halfWidth: reading },
      options,
    );
    const strokes = dataPaths(picture)[0]!;
    expect(strokes.attrs.d!.match(/M/g)!.length).toBeLessThan(760);
    expect(textsOf(picture).join(" ")).toContain("single readings, lowest to highest");
  });

  it("magnifies a mean that has become too sure to be seen beside the readings", () => {
    const time = Float64Array.from({ length: 400 }, (_, i) => i);
    const reading = time.map((_, i) => (i % 2 === 0 ? 1 : -1));
    const mean = time.map((_, i) => (i % 2 === 0 ? 1 / (i + 1) : 0));
    const halfWidth = time.map((_, i) => 2 / (i + 1));
    const picture = readingsChart({ time, reading, mean, halfWidth, truth: 0 }, options);
    // Readings span 2; from reading 100 on the interval reaches from 1/101 − 2/101 … to 3/101.
    const band = 3 / 101 + 2 / 102;
    const times = Number((2 / band).toPrecision(2));
    expect(textsOf(picture)).toContain(`The mean alone, ${times} times as large`);
    const groups = elementsOf(picture, "g").filter((node) => "clip-path" in node.attrs);
    expect(groups.map((node) => node.attrs["clip-path"])).toEqual([
      "url(#a-clip)",
      "url(#a-below-clip)",
    ]);
    expect(textsOf(picture).filter((text) => text === "Time (s)")).toHaveLength(2);
    // The plots are in line: both clips have the same left end and width.
    const clips = elementsOf(picture, "clipPath").map((node) => elementsOf(node, "rect")[0]!.attrs);
    expect([clips[0]!.x, clips[0]!.width]).toEqual([clips[1]!.x, clips[1]!.width]);
  });

  it("does without truth, and says what is read in which unit", () => {
    const picture = readingsChart(
      { ...input, truth: null, quantity: "Rate of the dial", unit: "s/d" },
      options,
    );
    expect(textsOf(picture)).toContain("Rate of the dial (s/d)");
    expect(textsOf(picture)).not.toContain("truth");
  });

  it("refuses arrays of different length, and nothing to draw", () => {
    expect(() => readingsChart({ ...input, mean: Float64Array.of(1) }, options)).toThrow(
      "equal length, got 4 and 1",
    );
    const reading = input.reading.map(() => NaN);
    expect(() => readingsChart({ ...input, reading }, options)).toThrow(
      "at least one finite value",
    );
  });
});
