import { describe, expect, it } from "vitest";
import { conciseUncertainty } from "../../src/planning/index.ts";

describe("conciseUncertainty", () => {
  // JCGM 100:2008, 7.2.2: m_S = 100,021 47(35) g; H.3: y1 = -0.1712(29), y2 = 0.002 18(67), b(30) = -0.1494(41)
  // from the unrounded values of table H.6 (values from memory, checked by computation).
  it.each([
    [100.02147, 0.00035, "100.02147(35)"],
    [-0.17120379, 0.0028775976, "-0.1712(29)"],
    [0.0021826977, 0.00066793877, "0.00218(67)"],
    [-0.1493768127, 0.0041385958, "-0.1494(41)"],
  ])("writes the examples of the GUM: %d, %d as %s", (value, uncertainty, text) => {
    expect(conciseUncertainty(value, uncertainty)).toBe(text);
  });

  // CODATA 2018 (from memory): G = 6.674 30(15)e-11, m_n/m_e = 1838.683 661 73(89), alpha = 7.297 352 5693(11)e-3.
  it.each([
    [6.6743e-11, 1.5e-15, "6.67430(15)e-11"],
    [1838.68366173, 8.9e-7, "1838.68366173(89)"],
    [7.2973525693e-13, 1.1e-22, "7.2973525693(11)e-13"],
  ])("writes constants as CODATA does: %d, %d as %s", (value, uncertainty, text) => {
    expect(conciseUncertainty(value, uncertainty)).toBe(text);
  });

  it.each([
    [0.5, 0.0995, "0.50(10)"],
    [0.5, 0.0994, "0.500(99)"],
    // The double 0.995 is 0.99499999999999999556: two digits of it are 0.99, never 100 hundredths.
    [0.5, 0.995, "0.50(99)"],
    [-0.0001, 0.035, "0.000(35)"],
    [1234.4, 45, "1234(45)"],
    [12346, 678, "1.235(68)e4"],
    [0, 3.1e-11, "0.0(31)e-11"],
    [2e-11, 3.1e-12, "2.00(31)e-11"],
    [9.996e-11, 3.1e-12, "10.00(31)e-11"],
    [3, 0, "3"],
  ])("rounds both to the same place: %d, %d as %s", (value, uncertainty, text) => {
    expect(conciseUncertainty(value, uncertainty)).toBe(text);
  });

  it("writes a plus on request, never before zero", () => {
    expect(conciseUncertainty(0.123, 0.045, true)).toBe("+0.123(45)");
    expect(conciseUncertainty(0, 0.045, true)).toBe("0.000(45)");
  });

  it("refuses what is not finite or negative", () => {
    expect(() => conciseUncertainty(Number.NaN, 1)).toThrow(RangeError);
    expect(() => conciseUncertainty(1, -1)).toThrow(RangeError);
  });
});
