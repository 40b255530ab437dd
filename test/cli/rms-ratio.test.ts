import { describe, expect, it } from "vitest";
import { Deviations } from "../../src/cli/index.ts";
import { normalQuantile } from "../../src/numeric/index.ts";

/** So many deviations that lie as those of a Gaussian do. */
const gaussian = (count: number, rms: number): Deviations => {
  const deviations = new Deviations();
  for (let i = 0; i < count; i++) deviations.add(rms * normalQuantile((i + 0.5) / count));
  return deviations;
};

describe("deviations of an ensemble", () => {
  it("differ by more than three standard errors of a Gaussian's rms, 1/√(2N), and by more than 3 %", () => {
    // N = 5000: 1 % of the rms is one standard error; 100: 7 %.
    expect(gaussian(5000, 0.95).differFrom(1)).toBe(true);
    expect(gaussian(5000, 0.86).differFrom(1)).toBe(true);
    expect(gaussian(5000, 1.05).differFrom(1)).toBe(true);
    expect(gaussian(100, 0.9).differFrom(1)).toBe(false);
    expect(gaussian(100, 0.7).differFrom(1)).toBe(true);
    expect(gaussian(200_000, 0.98).differFrom(1)).toBe(false);
    expect(gaussian(200_000, 0.96).differFrom(1)).toBe(true);
  });

  it("differ from a prediction of nothing, unless they are nothing too", () => {
    expect(gaussian(100, 0).differFrom(0)).toBe(false);
    expect(gaussian(100, 1).differFrom(0)).toBe(true);
  });
});
