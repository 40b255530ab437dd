import { describe, expect, it } from "vitest";
import { monotoneRoot } from "../../src/numeric/index.ts";

describe("monotoneRoot", () => {
  it("finds √2 and the fixed point of the cosine, 0.7390851332151607 (the Dottie number)", () => {
    const root = monotoneRoot(
      (u) => u * u - 2,
      (u) => 2 * u,
      0,
      2,
      1,
    );
    expect(Math.abs(root - Math.SQRT2)).toBeLessThan(3e-16);
    const fixed = monotoneRoot(
      (u) => Math.cos(u) - u,
      (u) => -Math.sin(u) - 1,
      0,
      1,
      0.1,
    );
    expect(Math.abs(fixed - 0.7390851332151607)).toBeLessThan(3e-16);
  });

  it("finds the root of a falling function and with a useless slope, by bisection", () => {
    expect(
      monotoneRoot(
        (u) => 3 - u,
        () => -1,
        0,
        100,
        90,
      ),
    ).toBe(3);
    const root = monotoneRoot(
      (u) => u ** 3 - 5,
      () => 0,
      0,
      100,
      90,
    );
    expect(Math.abs(root - Math.cbrt(5))).toBeLessThan(1e-15);
  });
});
