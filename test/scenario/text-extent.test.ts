import { describe, expect, it } from "vitest";
import { textExtent } from "../../src/scenario/index.ts";

describe("textExtent", () => {
  it.each([
    ["", 0],
    ["hello", 1],
    ["a: 1", 2],
    ["a: { b: [1, 2] }", 4],
    ["- - - 1", 4],
    ["{".repeat(7), 7],
  ])("of %j has depth %i", (text, depth) => {
    expect(textExtent(text).depth).toBe(depth);
  });

  it("stands any depth, where recursion would not", () => {
    expect(textExtent("[".repeat(30_000)).depth).toBe(30_000);
  });

  it("counts keys, values and lists", () => {
    const document = 1;
    const list = 1;
    expect(textExtent(`[${"1,".repeat(99)}1]`).nodes).toBe(document + list + 100);
  });
});
