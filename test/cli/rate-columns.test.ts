import { describe, expect, it } from "vitest";
import { halfWidth, howToRead, truthBeside } from "../../src/cli/index.ts";

const perDay = (seconds: number): number => seconds / 86400;

describe("howToRead", () => {
  // JCGM 100:2008 (GUM), 7.2.2: 100.021 47(35) has the uncertainty 0.000 35, of the last digits quoted.
  it("writes the digits in parentheses out", () => {
    expect(howToRead(perDay(-7.1e-3), perDay(6.5e-3))).toEqual([
      "-7.1(65) stands for -7.1 ± 6.5 ms/day, at 95 %.",
    ]);
    expect(howToRead(perDay(95e-3), perDay(68e-3))[0]).toContain("+95 ± 68 ms/day");
  });

  it("keeps rows of zeros away, and is silent without an interval", () => {
    expect(howToRead(perDay(-5.802837), perDay(58e-6))[0]).not.toContain("0.0000");
    expect(howToRead(Number.NaN, 1)).toEqual([]);
    expect(howToRead(1e-8, Number.NaN)).toEqual([]);
  });
});

describe("truthBeside", () => {
  it("shows the truth in the digits of the estimate, and never fewer than three", () => {
    expect(truthBeside(perDay(-5.80254), perDay(58e-6))).toContain("-5.80254");
    expect(truthBeside(perDay(1.728e-6), perDay(62e-6))).toBe("+1.73 µs/day");
    expect(truthBeside(0, 1e-9)).toBe("0 s/day");
  });
});

describe("halfWidth", () => {
  it("has two digits and no sign but ±", () => {
    expect(halfWidth(perDay(6.34e-3))).toBe("±6.3 ms/day");
    expect(halfWidth(Number.NaN)).toBe("–");
  });
});
