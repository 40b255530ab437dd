import { describe, expect, it } from "vitest";
import {
  commonRateUnit,
  halfWidthText,
  rateNumber,
  rateText,
  rateUnit,
  rateWithin,
  unitAsFraction,
} from "../../src/view/words/index.ts";

const perDay = (seconds: number): number => seconds / 86400;

describe("a rate", () => {
  // 1e-8 is 0.864 ms a day, 1/0.9995 - 1 is 43.2216 s a day: computed by hand.
  it.each([
    [1e-8, 1e-9, "+0.864 ± 0.086 ms/day"],
    [1 / 0.9995 - 1, 1e-8, "+43.22161 ± 0.00086 s/day"],
    [perDay(0.123e-3), perDay(0.045e-3), "+0.123 ± 0.045 ms/day"],
    [perDay(-1.28e-3), perDay(0.9e-3), "-1.28 ± 0.90 ms/day"],
    [-6.1e-5, 1e-10, "-5.2704000 ± 0.0000086 s/day"],
    [0, 2e-12, "0.00 ± 0.17 µs/day"],
  ])("of %d with %d is told as %s", (rate, half, words) => {
    expect(rateWithin(rate, half)).toBe(words);
  });

  it("that is known has three digits and a sign", () => {
    expect(rateText(perDay(-0.80512e-3))).toBe("-0.805 ms/day");
    expect(rateText(perDay(1.728e-6))).toBe("+1.73 µs/day");
    expect(rateText(0)).toBe("0 s/day");
  });

  it("as a half-width has two digits and no sign but ±", () => {
    expect(halfWidthText(perDay(6.34e-3))).toBe("±6.3 ms/day");
    expect(halfWidthText(Number.NaN)).toBe("–");
  });
});

describe("one unit for a table", () => {
  it("is that of the smallest, unless the largest would take more than four digits", () => {
    expect(commonRateUnit([0.9e-3, 0.14].map(perDay)).name).toBe("ms/day");
    expect(commonRateUnit([0.24e-6, 62e-12].map(perDay)).name).toBe("ns/day");
    expect(commonRateUnit([33, 0.04].map(perDay)).name).toBe("s/day");
    expect(commonRateUnit([0, Number.NaN, -5e-6].map(perDay)).name).toBe("µs/day");
    expect(commonRateUnit([]).name).toBe("s/day");
  });

  it("is told as a fraction: 1 s/day = 1/86400", () => {
    expect(unitAsFraction(rateUnit(perDay(1)))).toBe("1 s/day = 1.157e-5");
    expect(unitAsFraction(rateUnit(perDay(1e-3)))).toBe("1 ms/day = 1.157e-8");
  });

  it("keeps the digits of an uncertainty", () => {
    expect(rateNumber(perDay(1.6e-3), rateUnit(perDay(1e-3)), 3)).toBe("1.60");
    expect(rateNumber(perDay(1290e-3), rateUnit(perDay(1e-3)), 2)).toBe("1300");
  });
});
