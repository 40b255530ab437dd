import { describe, expect, it } from "vitest";
import { conciseNumber } from "../../src/planning/index.ts";

describe("conciseNumber", () => {
  it.each([
    [1e-8, "1e-8"],
    [2.449e-9, "2.4e-9"],
    [0.0312, "0.031"],
    [0, "0"],
  ])("writes %d as %s", (value, text) => {
    expect(conciseNumber(value)).toBe(text);
  });
});
