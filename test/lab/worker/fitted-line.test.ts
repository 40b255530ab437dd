import { describe, expect, it } from "vitest";
import { fittedLine } from "../../../src/lab/index.ts";

describe("fittedLine", () => {
  it("finds the line that points lie on", () => {
    const time = Float64Array.of(0, 1, 2, 10);
    const line = fittedLine(
      time,
      time.map((t) => 3 - 0.5 * t),
    )!;
    expect(line.slope).toBeCloseTo(-0.5, 14);
    expect(line.intercept).toBeCloseTo(3, 14);
  });

  // Worked by hand: x̄ = 1, mean 4/3; slope = (−1·(−1/3) + 1·(2/3))/2 = 1/2, intercept = 5/6.
  it("minimises squares: (0, 1), (1, 1), (2, 2) give 5/6 + t/2", () => {
    const line = fittedLine(Float64Array.of(0, 1, 2), Float64Array.of(1, 1, 2))!;
    expect(line.slope).toBeCloseTo(1 / 2, 14);
    expect(line.intercept).toBeCloseTo(5 / 6, 14);
  });

  it("is null where no line is fixed", () => {
    expect(fittedLine(Float64Array.of(1), Float64Array.of(1))).toBeNull();
    expect(fittedLine(Float64Array.of(1, 1), Float64Array.of(1, 2))).toBeNull();
  });
});
