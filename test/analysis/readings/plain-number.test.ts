import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainNumber, readNumber } from "../../../src/judgement/index.ts";

const read = (text: string) => plainNumber(text, 0, text.length, 46);

describe("plainNumber", () => {
  // ECMA-262 says what Number() gives: the double nearest to the decimal written.
  it("gives to the last bit what Number() gives, for every double and for numbers of any digits", () => {
    const digits = fc.stringMatching(/^[-+]?\d{1,25}(\.\d{0,25})?([eE][-+]?\d{1,3})?$/);
    const written = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
      fc.double({ min: 0.9, max: 1.1, noNaN: true }).map((v) => v.toFixed(12)),
      digits,
    );
    fc.assert(
      fc.property(written, (text) => {
        const value = read(text);
        if (value === undefined) expect(Number.isFinite(Number(text))).toBe(false);
        else expect(Object.is(value, Number(text))).toBe(true);
      }),
      { seed: 51, numRuns: 5000 },
    );
  });

  it("reads nothing that the careful reader does not read, and nothing else", () => {
    const text = fc.oneof(
      fc.string({ maxLength: 8 }),
      fc.stringMatching(/^[-+0-9.,eE ]{0,9}$/),
      fc.constantFrom("1e", "1e+", ".", "+", "-.e1", "1.2.3", "1e5.", "0x10", "1_0", "Infinity"),
    );
    for (const comma of [false, true]) {
      fc.assert(
        fc.property(text, (written) => {
          const value = plainNumber(written, 0, written.length, comma ? 44 : 46);
          if (value !== undefined) expect(readNumber(written, comma)).toBe(value);
        }),
        { seed: 52, numRuns: 5000 },
      );
    }
  });

  it("reads a stretch of a text and nothing around it", () => {
    expect(plainNumber("1,-2.5e-3,7", 2, 9, 46)).toBe(-0.0025);
    expect(plainNumber("12", 0, 1, 46)).toBe(1);
    expect(plainNumber("1e5", 0, 2, 46)).toBeUndefined();
  });
});
