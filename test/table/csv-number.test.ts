import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { csvNumber } from "../../src/view/table/index.ts";

/** Grammar of a number in XML Schema 1.1 `double` with the exponent letter of Frictionless (from memory). */
const numberGrammar = /^(NaN|-?INF|-?(\d+(\.\d+)?)(E[+-]?\d+)?)$/;

describe("csvNumber", () => {
  it("reads back as the same double and follows the number grammar of Table Schema", () => {
    fc.assert(
      fc.property(fc.double({ noDefaultInfinity: true, noNaN: true }), (value) => {
        const text = csvNumber(value);
        expect(text).toMatch(numberGrammar);
        // ECMAScript requires exact decimal-to-double conversion; only the sign of zero is let go.
        expect(Number(text)).toBe(value === 0 ? 0 : value);
      }),
      { seed: 1 },
    );
  });

  it("is never longer than the shortest fixed number of digits that reads back", () => {
    // Independent of toString: the least precision whose rounded decimal is the same double.
    fc.assert(
      fc.property(fc.double({ min: 1e-5, max: 1e5, noNaN: true }), (value) => {
        let precision = 1;
        while (Number(value.toPrecision(precision)) !== value) precision++;
        const digits = csvNumber(value)
          .replace(".", "")
          .replace(/^0+|0+$/g, "");
        expect(digits.length).toBeLessThanOrEqual(precision);
      }),
      { seed: 2 },
    );
  });

  it("writes special values as Table Schema names them", () => {
    // Frictionless Table Schema v2, number: NaN, INF, -INF (from memory).
    expect([NaN, Infinity, -Infinity].map(csvNumber)).toEqual(["NaN", "INF", "-INF"]);
  });

  it("drops the sign of zero and keeps both kinds of exponent", () => {
    expect([-0, 1e-7, -1.5e-9, 1e21, 5e-324].map(csvNumber)).toEqual([
      "0",
      "1E-7",
      "-1.5E-9",
      "1E+21",
      "5E-324",
    ]);
  });
});
