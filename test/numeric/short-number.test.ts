import { describe, expect, it } from "vitest";
import { shortNumber } from "../../src/numeric/index.ts";

describe("shortNumber", () => {
  it.each([
    [1e-8, "1e-8"],
    [2.449e-9, "2.4e-9"],
    [0.0312, "0.031"],
    [0, "0"],
    [4.2e-4, "4.2e-4"],
    [99.96, "100"],
    [3.16e12, "3.2e12"],
  ])("writes %d as %s", (value, text) => {
    expect(shortNumber(value)).toBe(text);
  });
});
