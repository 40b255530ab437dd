import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellWidth, padCells, terminalBars } from "../../src/view/chart/index.ts";
import { anyText } from "./any-text.ts";

const bar = (label: string, value: number) => ({ label, value, text: String(value) });

describe("terminalBars", () => {
  it("draws lengths in proportion, to an eighth of a cell", () => {
    const lines = terminalBars([bar("a", 8), bar("b", 4), bar("c", 0)], { width: 40 });
    // Two columns of one cell and two spaces leave 36 cells.
    expect(lines).toEqual([`a 8 ${"█".repeat(36)}`, `b 4 ${"█".repeat(18)}`, "c 0"]);
    const eighth = terminalBars([bar("a", 36), bar("b", 0.5)], { width: 42 });
    // 42 − 1 − 3 − 2 = 36 cells: half a unit is half a cell.
    expect(eighth[1]).toBe("b 0.5 ▌");
  });

  it("shows something for anything above zero", () => {
    expect(terminalBars([bar("a", 1), bar("b", 1e-12)])[1]!.endsWith("▏")).toBe(true);
    expect(terminalBars([bar("a", 1), bar("b", 1e-12)], { characters: "ascii" })[1]).toMatch(/ #$/);
  });

  it("counts decades on a logarithmic scale", () => {
    const lines = terminalBars([bar("a", 100), bar("b", 1)], { width: 46, scale: { decades: 4 } });
    // 46 − 1 − 3 − 2 = 40 cells for four decades: two decades below is 20.
    expect(lines[1]).toBe(`b   1 ${"█".repeat(20)}`);
  });

  it("never exceeds its width, whatever the text, and obeys no control character", () => {
    const row = fc.record({
      label: anyText,
      value: fc.double({ min: 0, max: 1e9, noNaN: true }),
      text: anyText,
    });
    fc.assert(
      fc.property(
        fc.array(row, { maxLength: 5 }),
        fc.integer({ min: 40, max: 120 }),
        (rows, width) => {
          for (const line of terminalBars(rows, { width })) {
            expect(cellWidth(line)).toBeLessThanOrEqual(width);
            expect(line).not.toMatch(/\p{Cc}/u);
          }
        },
      ),
      { seed: 15 },
    );
  });

  it("refuses what has no length", () => {
    expect(() => terminalBars([bar("a", -1)])).toThrow("finite and >= 0, got -1");
    expect(() => terminalBars([bar("a", NaN)])).toThrow(RangeError);
    expect(() => terminalBars([], { width: 10 })).toThrow("integer >= 40, got 10");
    expect(terminalBars([])).toEqual([]);
  });
});

describe("cellWidth", () => {
  it("counts wide characters twice and marks not at all (Unicode Annex 11)", () => {
    expect(["abc", "時計", "e\u0301", "👩‍👩‍👧", "⏰", "ｱ"].map(cellWidth)).toEqual([
      3, 4, 1, 2, 2, 1,
    ]);
    expect(padCells("時計と", 4, "left")).toBe("時… ");
    expect(padCells("ab", 4, "right")).toBe("  ab");
  });
});
