import { describe, expect, it } from "vitest";
import { smoothSum } from "../../src/planning/index.ts";

describe("smoothSum", () => {
  it("is the plain sum up to 512 terms", () => {
    expect(smoothSum((m) => m * m, 0)).toBe(0);
    expect(smoothSum((m) => m * m, 500)).toBe((500 * 501 * 1001) / 6);
  });

  it("meets the closed sums of powers", () => {
    for (const n of [513, 1000, 54321, 1e9]) {
      expect(smoothSum((m) => m, n) / ((n * (n + 1)) / 2)).toBeCloseTo(1, 9);
      expect(smoothSum((m) => m * m, n) / ((n * (n + 1) * (2 * n + 1)) / 6)).toBeCloseTo(1, 6);
    }
  });

  it("meets π²/6, the sum of the inverse squares (Euler)", () => {
    expect(smoothSum((m) => 1 / (m * m), 1e9)).toBeCloseTo(Math.PI ** 2 / 6 - 1e-9, 8);
  });
});
