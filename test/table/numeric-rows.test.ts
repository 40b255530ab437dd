import { stringify } from "csv-stringify/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { csvNumber, numericRows } from "../../src/view/table/index.ts";

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
        ];
        const words = { codes: Uint8Array.from(rows, (r) => r[3]), labels };
        const cells = rows.map((r) => [
          r[0],
          r[1],
          Number.isNaN(r[2]) ? null : r[2],
          labels[r[3]]!,
        ]);
        expect(numericRows(columns, words)(0, rows.length)).toBe(reference(cells));
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it("writes a block of rows from the middle", () => {
    const words = { codes: Uint8Array.of(0, 1, 0, 1), labels: ["a", "b"] };
    const rows = numericRows([Float64Array.of(0, 1, 2, 3)], words);
    expect(rows(1, 3)).toBe("1,b\r\n2,a\r\n");
    expect(rows(2, 2)).toBe("");
  });

  it.each([
    ["unequal columns", [1, 2], 0, 0, 1, "equal length"],
    ["rows outside", [1], 0, 0, 2, "0 <= from <= to <= 1"],
    ["a code without label", [1], 1, 0, 1, "below the 1 labels, got 1 in row 0"],
  ])("refuses %s", (_, numbers, code, from, to, message) => {
    const words = { codes: Uint8Array.of(code), labels: ["drive"] };
    const write = () => numericRows([Float64Array.from(numbers)], words)(from, to);
    expect(write).toThrow(message);
  });
});
