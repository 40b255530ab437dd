import { describe, expect, it } from "vitest";
import { classOf, nearestChoice } from "../../../src/lab/index.ts";

describe("nearestChoice", () => {
  it.each([
    [9, [1, 3, 10], 2],
    [1.7, [1, 3, 10], 0],
    [1.8, [1, 3, 10], 1],
    [0.001, [1, 3, 10], 0],
  ])("is, for %s among %s, number %s", (ratio, factors, index) => {
    expect(nearestChoice(ratio, factors)).toBe(index);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("is null for %s", (ratio) => {
    expect(nearestChoice(ratio, [1, 10])).toBeNull();
  });
});

describe("classOf", () => {
  it.each([
    [0.5, 0],
    [1, 1],
    [9.9, 1],
    [10, 2],
    [Number.NaN, 2],
  ])("puts %s into class %s of the limits 1 and 10", (value, index) => {
    expect(classOf(value, [1, 10])).toBe(index);
  });
});
