import { describe, expect, it } from "vitest";
import { budgetChart, planChart } from "../../src/view/chart/index.ts";
import { dataPaths, pathPoints } from "./path-points.ts";
import { elementsOf, textOf } from "./read-xml.ts";

const options = { title: "", idPrefix: "a", width: 1000 };
const length = Float64Array.of(60, 600, 6000, 60000);
const strategy = {
  name: "back to back, mean",
  length,
  uncertainty: length.map((t) => 6e-5 / t),
  reaches: 6000,
  when: "1 h 40 min",
};
const input = { strategies: [strategy], goal: 1e-8, quantity: "Half-width" };

describe("planChart", () => {
  it("rings the crossing of curve and goal, and says when it is", () => {
    const picture = planChart(input, options);
    const [goal, curve] = dataPaths(picture).map(pathPoints);
    const [ring] = elementsOf(picture, "circle");
    // 6e-5/6000 = 1e-8: the third point of the curve lies on the goal line.
    expect(curve![2]![1]).toBeCloseTo(goal![0]![1], 1);
    expect(Number(ring!.attrs.cx)).toBeCloseTo(curve![2]![0], 1);
    expect(Number(ring!.attrs.cy)).toBeCloseTo(goal![0]![1], 1);
    const texts = elementsOf(picture, "text").map(textOf);
    expect(texts).toContain("back to back, mean: 1\u00a0h\u00a040\u00a0min");
    expect(texts).toContain("goal ±0.864 ms/day");
    expect(texts).toContain("1 hour");
  });

  it("says so where the goal is never reached", () => {
    const never = { ...strategy, reaches: null, when: "never" };
    const picture = planChart({ ...input, strategies: [never] }, options);
    expect(elementsOf(picture, "circle")).toEqual([]);
    expect(elementsOf(picture, "text").map(textOf)).toContain("back to back, mean: never");
  });

  it("says when the goal is reached beyond the picture, and has no ring for it", () => {
    const late = { ...strategy, reaches: 6e12, when: "190 000 years" };
    const picture = planChart({ ...input, strategies: [late] }, options);
    expect(elementsOf(picture, "circle")).toEqual([]);
    expect(elementsOf(picture, "text").map(textOf)).toContain(
      "back to back, mean: 190\u00a0000\u00a0years",
    );
  });

  it("refuses a goal that no logarithm has", () => {
    expect(() => planChart({ ...input, goal: 0 }, options)).toThrow("goal must be > 0, got 0");
  });
});

describe("budgetChart", () => {
  const gate = Float64Array.of(1, 10, 100);
  const stages = [
    { name: "drive", fraction: gate.map((t) => 3e-4 / t) },
    { name: "receiver", fraction: gate.map((t) => 4e-4 / t) },
    { name: "nothing", fraction: gate.map(() => 0) },
  ];
  const total = gate.map((t) => 5e-4 / t);

  it("draws the total below, one line a stage, and no name for a stage that adds nothing", () => {
    const picture = budgetChart({ gate, stages, total }, options);
    const widths = dataPaths(picture).map((node) => node.attrs["stroke-width"]);
    expect(widths[0]).toBe("5");
    const texts = elementsOf(picture, "text").map(textOf);
    for (const name of ["drive", "receiver", "all random parts together"]) {
      expect(texts).toContain(name);
    }
    expect(texts).not.toContain("nothing");
    expect(textOf(elementsOf(picture, "desc")[0]!)).toContain("nothing: no values.");
  });
});
