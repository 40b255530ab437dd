import { describe, expect, it } from "vitest";
import { roundCoordinate, svgNode } from "../../src/view/chart/index.ts";

describe("svgNode", () => {
  it("rounds numbers to two decimals and leaves text and order alone", () => {
    const node = svgNode("path", { d: "M0.123456 0", x: 1.23456, y: -0.001, fill: undefined }, "a");
    expect(node).toEqual({
      tag: "path",
      attrs: { d: "M0.123456 0", x: "1.23", y: "0" },
      children: ["a"],
    });
  });

  it("refuses numbers that a renderer would drop in silence", () => {
    expect(() => svgNode("rect", { x: NaN })).toThrow("must be finite, got NaN");
    expect(() => roundCoordinate(-Infinity)).toThrow(RangeError);
  });
});
