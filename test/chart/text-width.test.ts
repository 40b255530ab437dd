import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitText, textWidth, wrapText } from "../../src/view/chart/index.ts";
import { anyText } from "./any-text.ts";

describe("fitText", () => {
  it("never exceeds its room, in one line", () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 20, max: 600 }), (text, width) => {
        const fitted = fitText(text, 12, width);
        expect(textWidth(fitted, 12)).toBeLessThanOrEqual(width);
        expect(fitted).not.toMatch(/[\r\n\t]/);
      }),
      { seed: 11 },
    );
  });

  it("keeps text that fits, and cuts between letters as a reader sees them", () => {
    expect(fitText("short", 12, 200)).toBe("short");
    const cut = fitText("👩‍👩‍👧".repeat(30), 12, 100);
    // Unicode Annex 29: a family joined by ZWJ is one grapheme cluster.
    expect(cut).toMatch(/^(👩‍👩‍👧)+…$/u);
  });

  it("costs no time for a title of megabytes", () => {
    expect(fitText("x".repeat(5e6), 12, 300).length).toBeLessThan(100);
  });
});

describe("wrapText", () => {
  it("fills lines in order and cuts only what is left over", () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 60, max: 400 }), (text, width) => {
        const lines = wrapText(text, 12, width, 3);
        expect(lines.length).toBeGreaterThanOrEqual(1);
        expect(lines.length).toBeLessThanOrEqual(3);
        for (const line of lines) expect(textWidth(line, 12)).toBeLessThanOrEqual(width);
      }),
      { seed: 12 },
    );
    expect(wrapText("mean of all readings so far", 12, 100, 3).join(" ")).toBe(
      "mean of all readings so far",
    );
  });
});
