import { describe, expect, it } from "vitest";
import { finestScale } from "../../src/stages/synthesizer/index.ts";

const loop = { naturalHz: 10 / (2 * Math.PI), damping: 1 };

describe("finestScale", () => {
  it("is 10/ω where steps are longer, and the step where it is shorter", () => {
    expect(finestScale(5, loop)).toBeCloseTo(1, 14);
    expect(finestScale(0.25, loop)).toBe(0.25);
  });
});
