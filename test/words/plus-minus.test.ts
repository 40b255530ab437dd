import { describe, expect, it } from "vitest";
import { plusMinus } from "../../src/view/words/index.ts";

describe("plusMinus", () => {
  // JCGM 100:2008, 7.2.4: m_S = (100,021 47 ± 0,000 79) g, U = 0,79 mg from u_c = 0,35 mg and k = 2,26. In 7.2.2 the
  // same u_c in parentheses is 100,021 47(35): whoever read U there would be out by k. H.3, 95 % (k = 2,26 of 9 degrees
  // of freedom): y1 = -0,1712, u = 0,0029 (values from memory, the product computed).
  it.each([
    [100.02147, 0.00079, "100.02147 ± 0.00079"],
    [100.02147, 2.26 * 0.00035, "100.02147 ± 0.00079"],
    [-0.1712, 2.26 * 0.0029, "-0.1712 ± 0.0066"],
  ])("writes the examples of the GUM: %d, %d as %s", (value, half, text) => {
    expect(plusMinus(value, half)).toBe(text);
  });

  it.each([
    [0.5, 0.0995, "0.50 ± 0.10"],
    [0.5, 0.0994, "0.500 ± 0.099"],
    // The double 0.995 is 0.99499999999999999556: two digits of it are 0.99, never 1.00.
    [0.5, 0.995, "0.50 ± 0.99"],
    [-0.0001, 0.035, "0.000 ± 0.035"],
    [1234.4, 45, "1234 ± 45"],
    [12346, 678, "12350 ± 680"],
    [-12346, 678, "-12350 ± 680"],
    [3, 140, "0 ± 140"],
    [12346000, 678000, "(1.235 ± 0.068)e7"],
    [0, 3.1e-11, "(0.0 ± 3.1)e-11"],
    [2e-11, 3.1e-12, "(2.00 ± 0.31)e-11"],
    [9.996e-11, 3.1e-12, "(10.00 ± 0.31)e-11"],
    [3, 0, "3"],
  ])("rounds both to the same place: %d, %d as %s", (value, half, text) => {
    expect(plusMinus(value, half)).toBe(text);
  });

  it("writes a plus on request, never before zero", () => {
    expect(plusMinus(0.123, 0.045, true)).toBe("+0.123 ± 0.045");
    expect(plusMinus(2e-11, 3.1e-12, true)).toBe("(+2.00 ± 0.31)e-11");
    expect(plusMinus(0.0001, 0.045, true)).toBe("0.000 ± 0.045");
  });

  it("refuses what is not finite or negative", () => {
    expect(() => plusMinus(Number.NaN, 1)).toThrow(RangeError);
    expect(() => plusMinus(1, -1)).toThrow(RangeError);
  });
});
