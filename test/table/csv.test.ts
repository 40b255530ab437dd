import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { csvHeader, csvRows, csvText } from "../../src/table/csv.ts";

const columns = [{ name: "a" }, { name: "b" }];

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

describe("csvText", () => {
  it("streams the header and every row, in order, whatever the batches", () => {
    const rows = Array.from({ length: 9000 }, (_, i) => [i, `row ${i}`]);
    const pieces = [...csvText(columns, rows)];
    expect(pieces.length).toBeGreaterThan(2);
    const read: unknown[] = parse(pieces.join(""), { cast: true });
    expect(read[0]).toEqual(["a", "b"]);
    expect(read.slice(1)).toEqual(rows);
  });

  it("writes a header alone for no rows", () => {
    expect([...csvText(columns, [])].join("")).toBe("a,b\r\n");
    expect(csvHeader(columns)).toBe("a,b\r\n");
  });

  it("refuses a row of another width", () => {
    expect(() => [...csvText(columns, [[1, 2, 3]])]).toThrow("must have 2 cells (a, b), got 3");
  });
});
