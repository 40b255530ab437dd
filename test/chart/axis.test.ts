import { describe, expect, it } from "vitest";
import {
  bottomAxis,
  leftAxis,
  lightTheme,
  makeAxis,
  tickTextWidth,
} from "../../src/view/chart/index.ts";
import { elementsOf, textOf } from "./read-xml.ts";

describe("makeAxis", () => {
  it("carries quantity and unit, in a unit that suits the numbers", () => {
    const spec = { kind: "linear", domain: [0, 2e-6], quantity: "Time error", unit: "s" } as const;
    const axis = makeAxis(spec, 0, 400, 80);
    expect(axis.title).toBe("Time error (µs)");
    expect(axis.ticks.map(({ text }) => text)).toEqual(["0.0", "0.5", "1.0", "1.5", "2.0"]);
    expect(axis.ticks.map(({ at }) => Math.round(at))).toEqual([0, 100, 200, 300, 400]);
    expect(axis.position(1e-6)).toBeCloseTo(200, 9);
  });

  it("needs no unit for a pure number on a logarithmic axis", () => {
    const spec = { kind: "log", domain: [1e-12, 1e-6], quantity: "Deviation", unit: "1" } as const;
    const axis = makeAxis(spec, 300, 0, 22);
    expect(axis.title).toBe("Deviation");
    expect(axis.position(1e-9)).toBeCloseTo(150, 9);
    expect(tickTextWidth(axis)).toBeGreaterThan(10);
  });

  it("can go without numbers", () => {
    const spec = { kind: "linear", domain: [0, 3], quantity: "Rows", unit: "" } as const;
    const axis = makeAxis({ ...spec, hasTicks: false }, 300, 0, 22);
    expect(axis.ticks).toEqual([]);
    expect(axis.title).toBe("Rows");
    expect(tickTextWidth(axis)).toBe(0);
  });
});

describe("axis nodes", () => {
  const box = { left: 50, right: 450, top: 40, bottom: 240 };

  it("print every number and the title once, and cut a title too long for the picture", () => {
    const quantity = "A quantity with a name longer than any picture is wide ".repeat(5);
    const axis = makeAxis({ kind: "linear", domain: [0, 1], quantity, unit: "V" }, 50, 450, 80);
    for (const node of [
      bottomAxis(axis, box, lightTheme, null, 16),
      leftAxis(axis, box, lightTheme, 16),
    ]) {
      const texts = elementsOf(node, "text").map(textOf);
      expect(texts.slice(0, -1)).toEqual(axis.ticks.map(({ text }) => text));
      expect(texts.at(-1)).toMatch(/^A quantity .*…$/);
    }
  });
});
