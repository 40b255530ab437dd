import { describe, expect, it } from "vitest";
import { allFactors, octaveFactors } from "../../../src/analysis/index.ts";

describe("octaveFactors", () => {
  it("are the powers of two up to the limit, the limit included", () => {
    expect(octaveFactors(8)).toEqual([1, 2, 4, 8]);
    expect(octaveFactors(7)).toEqual([1, 2, 4]);
    expect(octaveFactors(0)).toEqual([]);
  });

  it("refuse a limit that is no integer", () => {
    expect(() => octaveFactors(1.5)).toThrow(/octaveFactors: limit must be an integer >= 0/);
  });
});

describe("allFactors", () => {
  it("are the integers up to the limit", () => {
    expect(allFactors(4)).toEqual([1, 2, 3, 4]);
    expect(() => allFactors(-1)).toThrow(/allFactors: limit/);
  });
});
