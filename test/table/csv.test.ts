import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { csvHeader, csvRows } from "../../src/view/table/index.ts";

describe("csvRows", () => {
  it("follows the examples of RFC 4180, section 2", () => {
    expect(csvRows([["aaa", "b\r\nbb", "ccc"]])).toBe('aaa,"b\r\nbb",ccc\r\n');
    expect(csvRows([["aaa", 'b"bb', "ccc"]])).toBe('aaa,"b""bb",ccc\r\n');
    expect(
      csvRows([
        ["aaa", "bbb"],
        ["zzz", "yyy"],
      ]),
    ).toBe("aaa,bbb\r\nzzz,yyy\r\n");
  });

  it("writes each kind of value as the descriptor promises", () => {
    expect(csvRows([[true, false, null, -0, NaN, Infinity, -Infinity, 1e-9]])).toBe(
      "true,false,,0,NaN,INF,-INF,1E-9\r\n",
    );
  });

  it("is read back, text for text, by an independent reader of RFC 4180", () => {
    const cell = fc.oneof(
      fc.string({ unit: "grapheme" }),
      fc.constantFrom("\r", "\n", "\r\n", '"', ",", " ", "🕰️", "=1+1"),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constant("x"), cell, cell), { maxLength: 20 }), (rows) => {
        const read = parse(csvRows(rows), { record_delimiter: "\r\n", relax_column_count: false });
        expect(read).toEqual(rows);
      }),
      { seed: 3 },
    );
  });
});

describe("csvHeader", () => {
  it("is a row of the names", () => {
    expect(csvHeader([{ name: "a" }, { name: "b" }])).toBe("a,b\r\n");
  });
});
