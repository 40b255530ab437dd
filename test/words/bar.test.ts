import { describe, expect, it } from "vitest";
import { bar } from "../../src/view/words/index.ts";

describe("bar", () => {
  it.each([
    [4, "████"],
    [2.5, "██▌"],
    [0.125, "▏"],
    [1e-12, "▏"],
    [0, ""],
  ])("of %d cells is %j", (cells, text) => {
    expect(bar(cells)).toBe(text);
  });
});
