import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fixedText, givenText, numberText, powerOfTen } from "../../src/view/chart/index.ts";

/** Reads a number as a person does: true minus, thin spaces, raised exponents. */
const read = (text: string): number => {
  const plain = text.replace("−", "-").replace(/\u202f/g, "");
  const [mantissa, power] = plain.includes("·10") ? plain.split("·10") : [plain, undefined];
  if (power !== undefined) return Number(`${mantissa}e${exponent(power)}`);
  const bare = /^(-?)10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)$/.exec(plain);
  return bare ? Number(`${bare[1]}1e${exponent(bare[2]!)}`) : Number(plain);
};
const exponent = (raised: string) =>
  raised === ""
    ? "1"
    : [...raised].map((c) => (c === "⁻" ? "-" : "⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(c))).join("");

describe("numberText", () => {
  it("is the value to the digits asked for", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-30, max: 1e30, noNaN: true }),
        fc.integer({ min: 1, max: 6 }),
        fc.boolean(),
        (size, digits, isNegative) => {
          const value = isNegative ? -size : size;
          expect(read(numberText(value, digits))).toBe(Number(value.toPrecision(digits)));
        },
      ),
      { seed: 8 },
    );
  });

  it("writes as ISO 80000-1 prints: thin spaces between groups of three, a true minus", () => {
    expect(fixedText(-1234567.25, 2)).toBe("−1\u202f234\u202f567.25");
    expect(fixedText(1234, 0)).toBe("1234");
    expect(fixedText(-0.001, 2)).toBe("0.00");
    expect(numberText(3.2e-9, 2)).toBe("3.2·10⁻⁹");
    expect(numberText(1e12, 1)).toBe("10¹²");
    expect(numberText(0, 3)).toBe("0");
  });

  it("prints a set number as it was set", () => {
    expect([50, 0.025, 4.5, 2.5e-9, 0.1 + 0.2, 1234567].map(givenText)).toEqual([
      "50",
      "0.025",
      "4.5",
      "2.5·10⁻⁹",
      "0.3",
      "1.234567·10⁶",
    ]);
  });

  it("raises exponents", () => {
    expect([0, 1, 2, -1, -12, 103].map(powerOfTen)).toEqual([
      "1",
      "10",
      "10²",
      "10⁻¹",
      "10⁻¹²",
      "10¹⁰³",
    ]);
  });
});
