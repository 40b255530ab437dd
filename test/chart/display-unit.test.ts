import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { displayUnit, givenQuantityText, quantityText } from "../../src/view/chart/index.ts";

describe("displayUnit", () => {
  it("brings the largest number between 1 and 1000 for prefixes of the SI", () => {
    // SI Brochure, table 7: f p n µ m k M G are 10^-15 … 10^9.
    fc.assert(
      fc.property(fc.double({ min: 1e-15, max: 9e11, noNaN: true }), (largest) => {
        const shown = largest * displayUnit(largest, "Hz").factor;
        expect(shown).toBeGreaterThan(0.999999);
        expect(shown).toBeLessThan(1000);
      }),
      { seed: 9 },
    );
  });

  it("uses units people know for long times", () => {
    // SI Brochure, table 8: 1 h = 3600 s, 1 d = 86 400 s; ISO 80000-3: 1 a = 365.25 d.
    expect(displayUnit(20000, "s")).toEqual({ factor: 1, unit: "s" });
    expect(displayUnit(72000, "s")).toEqual({ factor: 1 / 3600, unit: "h" });
    expect(displayUnit(1e6, "s")).toEqual({ factor: 1 / 86400, unit: "d" });
    expect(displayUnit(1e9, "s").unit).toBe("a");
  });

  it("shows pure numbers in powers of ten, and none within reach", () => {
    expect(displayUnit(4e-6, "1")).toEqual({ factor: 1e6, unit: "10⁻⁶" });
    expect(displayUnit(1e-6, "1").unit).toBe("10⁻⁶");
    expect(displayUnit(0.5, "1")).toEqual({ factor: 1, unit: "" });
    expect(displayUnit(0, "V")).toEqual({ factor: 1, unit: "V" });
  });

  it("puts quantities in words", () => {
    expect(quantityText(0.0087, "s", 2)).toBe("8.7 ms");
    expect(quantityText(-4.21e-10, "1", 3)).toBe("−4.21·10⁻¹⁰");
    expect(quantityText(0.9996e-3, "s", 3)).toBe("1.00 ms");
    expect(quantityText(7200, "s", 2)).toBe("2.0 h");
    expect(givenQuantityText(0.06, "s")).toBe("60 ms");
    expect(givenQuantityText(50, "s")).toBe("50 s");
    expect(givenQuantityText(0, "V")).toBe("0 V");
  });
});
