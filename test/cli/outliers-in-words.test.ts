import { describe, expect, it } from "vitest";
import { outliersInWords, stepsInWords } from "../../src/cli/index.ts";

describe("outliersInWords", () => {
  const missed = (reading: number, cycles: number) =>
    ({ reading, kind: "missed_edge", cycles, repaired: true }) as const;

  it("tells neighbours with the same fault in one line, and no others", () => {
    const lines = outliersInWords([missed(3, 2), missed(4, 2), missed(5, 1), missed(9, 1)]);
    expect(lines.slice(1).map((line) => line.trim())).toEqual([
      "readings 3 to 4: 2 cycles missed each; counts put right.",
      "reading 5: 1 cycle missed; count put right.",
      "reading 9: 1 cycle missed; count put right.",
    ]);
  });

  it("names the lines of a file, so that they can be looked at", () => {
    const line = Int32Array.of(2, 3, 4, 6, 7, 8);
    const lines = outliersInWords([missed(0, 1), missed(3, 2), missed(4, 2)], line);
    expect(lines.slice(1).map((text) => text.trim())).toEqual([
      "reading 0 (line 2): 1 cycle missed; count put right.",
      "readings 3 to 4 (lines 6 to 7): 2 cycles missed each; counts put right.",
    ]);
  });

  it("counts what it does not tell one by one", () => {
    const many = Array.from({ length: 12 }, (_, i) => missed(2 * i, 1));
    expect(outliersInWords(many).at(-1)).toContain("4 more");
  });
});

describe("stepsInWords", () => {
  it("sums what the dial lost in steps and spans, without strays that come back", () => {
    const apart = { cycles: Number.NaN, repaired: false } as const;
    const text = stepsInWords([
      { ...apart, reading: 1, kind: "step", timeError: -0.25 },
      { ...apart, reading: 2, kind: "span", timeError: -0.05 },
      { ...apart, reading: 3, kind: "stray", timeError: 7 },
    ]).join(" ");
    expect(text).toContain("300 ms lost");
  });

  it("says nothing where there are none", () => {
    expect(stepsInWords([])).toEqual([]);
    expect(outliersInWords([])).toEqual([]);
  });
});
