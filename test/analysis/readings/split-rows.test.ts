import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readNumber, splitRows, textsOf } from "../../../src/judgement/index.ts";
import { InputError } from "../../../src/readings/index.ts";

const table = (text: string) => {
  const rows = splitRows(text, "f");
  return Array.from(rows.line, (line, i) => [line, ...textsOf(rows.at(i))]);
};

/** Fields of a text without quotes in the plainest way: lines split, then each of them. */
function plainly(text: string, delimiter: string): (string | number)[][] {
  return text
    .replace(/^\uFEFF/, "")
    .split(/\r\n|\n|\r/)
    .map((line, i) => ({ line, number: i + 1 }))
    .filter(({ line }) => line.trim() !== "" && !/^\s*(#|%|\/\/)/.test(line))
    .map(({ line, number }) => [
      number,
      ...(delimiter === " " ? line.trim().split(/[ \t]+/) : line.split(delimiter)),
    ]);
}

const field = fc.oneof(
  fc.double({ noNaN: true }).map(String),
  fc.stringMatching(/^[a-z0-9. \u00a0\u2003+-]{1,6}$/),
  fc.constantFrom("", " ", "#", "% x", "//", "1.5 ", "\u00a07"),
);
const ends = fc.constantFrom("\n", "\r\n", "\r", "\n\n", "\n\r", "\n# c\n", "\r\n\u2003\r\n");

describe("splitRows", () => {
  it("cuts any text without quotes as splitting its lines one by one does", () => {
    const text = fc
      .tuple(
        fc.constantFrom(";", "\t", ",", " "),
        fc.constantFrom("", "\uFEFF"),
        fc.array(fc.tuple(fc.array(field, { minLength: 2, maxLength: 20 }), ends), {
          minLength: 1,
          maxLength: 8,
        }),
      )
      .map(([delimiter, mark, lines]) => ({
        delimiter,
        text: `${mark}${lines.map(([fields, end]) => fields.join(delimiter) + end).join("")}`,
      }));
    fc.assert(
      fc.property(text, ({ text, delimiter }) => {
        // Blanks and tabs in the fields may be taken for the delimiter; the cut must be right for what was found.
        const expected = [delimiter, ";", "\t", ",", " "].map((d) => plainly(text, d));
        const found = table(text);
        expect(expected).toContainEqual(found);
      }),
      { seed: 53, numRuns: 1500 },
    );
  });

  it("reads the same numbers from a text with quotes, by the rules of RFC 4180, and from one without", () => {
    const cell = fc.oneof(
      { weight: 4, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }).map(String) },
      fc.constantFrom("", "x", "NaN", "1e400"),
    );
    const rows = fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 10 });
    fc.assert(
      fc.property(rows, fc.constantFrom(";", "\t", ","), (cells, delimiter) => {
        // A column of whole words at the end keeps every row from being blank and a comma from being decimal.
        const plain = cells.map((row) => [...row, "end"].join(delimiter)).join("\n");
        const quoted = cells
          .map((row) => [...row, "end"].map((c) => `"${c}"`).join(delimiter))
          .join("\n");
        const a = splitRows(plain, "f");
        const b = splitRows(quoted, "f");
        expect([...a.line]).toEqual([...b.line]);
        cells.forEach((row, r) => {
          row.forEach((text, i) => {
            const expected = readNumber(text, false);
            expect(a.at(r).number(i)).toEqual(expected);
            expect(b.at(r).number(i)).toEqual(expected);
          });
        });
      }),
      { seed: 54, numRuns: 500 },
    );
  });

  it("counts lines whatever ends them", () => {
    expect(table("a,1\r\n\r\n# c\rb,2\nc,3").map(([line]) => line)).toEqual([1, 4, 5]);
    expect(table("a,1\r")).toEqual([[1, "a", "1"]]);
    expect(table("")).toEqual([]);
  });

  it("refuses zero bytes and quotes that are not closed", () => {
    expect(() => splitRows("a\u0000", "f")).toThrow(InputError);
    expect(() => splitRows('1,"2', "f")).toThrow(/close every quote/);
  });
});
