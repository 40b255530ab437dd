import { describe, expect, it } from "vitest";
import { timeErrorChart } from "../../src/view/chart/index.ts";
import { dataPaths, pathPoints } from "./path-points.ts";
import { elementsOf, textOf } from "./read-xml.ts";

const options = { title: "", idPrefix: "a" };
const time = Float64Array.of(0, 100, 200, 300, 400);
const input = {
  time,
  timeError: time.map((t) => 1e-6 * t),
  fit: { intercept: 0, slope: 1e-6 },
  slips: [],
  fallback: [],
};

describe("timeErrorChart", () => {
  it("lays a fitted line on a record that is that line", () => {
    const [record, fit] = dataPaths(timeErrorChart(input, options)).map(pathPoints);
    expect(record).toHaveLength(5);
    expect(fit).toEqual([record![0], record![4]]);
  });

  it("marks every slip and shades every span without drive, to scale", () => {
    const picture = timeErrorChart(
      {
        ...input,
        slips: [
          { at: 100, steps: -1 },
          { at: 300, steps: 2 },
        ],
        fallback: [{ from: 100, to: 200 }],
      },
      options,
    );
    const group = elementsOf(picture, "g").find((node) => "clip-path" in node.attrs)!;
    const [span] = elementsOf(group, "rect");
    const [slipLines, diamonds, record] = dataPaths(picture);
    const x = pathPoints(record!).map(([at]) => at);
    expect(Number(span!.attrs.x)).toBeCloseTo(x[1]!, 1);
    expect(Number(span!.attrs.width)).toBeCloseTo(x[2]! - x[1]!, 1);
    expect(pathPoints(slipLines!).map(([at]) => at)).toEqual([x[1], x[1], x[3], x[3]]);
    expect(pathPoints(diamonds!)).toHaveLength(2);
    const words = textOf(elementsOf(picture, "desc")[0]!);
    expect(words).toContain("Slips: −1 step at 100 s, +2 steps at 300 s.");
    expect(words).toContain("On its own oscillator: from 100 s to 200 s.");
  });

  it("does without a line, and refuses nothing to draw", () => {
    expect(dataPaths(timeErrorChart({ ...input, fit: null }, options))).toHaveLength(1);
    const timeError = time.map(() => NaN);
    expect(() => timeErrorChart({ ...input, timeError }, options)).toThrow(RangeError);
    expect(() => timeErrorChart({ ...input, time: Float64Array.of(1) }, options)).toThrow(
      "equal length, got 1 and 5",
    );
  });
});
