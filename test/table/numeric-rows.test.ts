import { stringify } from "csv-stringify/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { csvNumber } from "../../src/table/csv-number.ts";
import { numericRows } from "../../src/table/numeric-rows.ts";

/** The same cells through the general-purpose package, which knows nothing of the bulk writer. */
const reference = (rows: (number | string | null)[][]) =>
  stringify(rows, { record_delimiter: "\r\n", cast: { number: csvNumber } });

/** Doubles as a run makes them: whole numbers, time errors of many sizes, and the awkward ones. */
const value = fc.oneof(
  fc.integer(),
  fc.double(),
  fc.double({ min: -1e-5, max: 1e-5 }),
  fc.constantFrom(-0, 0, NaN, Infinity, -Infinity, 1e21, 1e-7, 5e-324, 2 ** 53),
);

describe("numericRows", () => {
  it("writes byte for byte what csv-stringify writes", () => {
    const row = fc.tuple(value, value, value, fc.integer({ min: 0, max: 2 }));
    const labels = ["drive", 'with "quotes", and comma', ""];
    fc.assert(
      fc.property(fc.array(row, { maxLength: 40 }), (rows) => {
        const columns = [
          Float64Array.from(rows, (r) => r[0]),
          Float64Array.from(rows, (r) => r[1]),
          { optional: Float64Array.from(rows, (r) => r[2]) },
          { codes: Uint8Array.from(rows, (r) => r[3]), labels },
        ];
        const cells = rows.map((r) => [
          r[0],
          r[1],
          Number.isNaN(r[2]) ? null : r[2],
          labels[r[3]]!,
        ]);
        expect(numericRows(columns, 0, rows.length)).toBe(reference(cells));
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it("writes a block of rows from the middle", () => {
    const x = Float64Array.of(0, 1, 2, 3);
    expect(numericRows([x, x], 1, 3)).toBe("1,1\r\n2,2\r\n");
    expect(numericRows([x, x], 2, 2)).toBe("");
  });

  it.each([
    ["one column", [Float64Array.of(1)], 0, 1, "two or more"],
    ["unequal columns", [Float64Array.of(1), Float64Array.of(1, 2)], 0, 1, "equal length"],
    ["rows outside", [Float64Array.of(1), Float64Array.of(1)], 0, 2, "0 <= from <= to <= 1"],
    [
      "a code without label",
      [Float64Array.of(1), { codes: Uint8Array.of(1), labels: ["drive"] }],
      0,
      1,
      "below the 1 labels",
    ],
  ])("refuses %s", (_, columns, from, to, message) => {
    expect(() => numericRows(columns, from, to)).toThrow(message);
  });
});
