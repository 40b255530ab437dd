import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cleanText } from "../../src/view/chart/index.ts";
import { anyText } from "./any-text.ts";

describe("cleanText", () => {
  it("leaves only characters of XML 1.0, production 2, and is content with its own result", () => {
    // Char ::= #x9 | #xA | #xD | [#x20-#xD7FF] | [#xE000-#xFFFD] | [#x10000-#x10FFFF]
    // biome-ignore lint/suspicious/noControlCharactersInRegex: tab, line feed and carriage return are allowed
    const all = /^[\u{9}\u{a}\u{d}\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]*$/u;
    fc.assert(
      fc.property(anyText, (text) => {
        const cleaned = cleanText(text);
        expect(all.test(cleaned)).toBe(true);
        expect(cleanText(cleaned)).toBe(cleaned);
        if (all.test(text)) expect(cleaned).toBe(text);
      }),
      { seed: 5 },
    );
  });

  it("keeps paired surrogates and replaces lone ones", () => {
    expect(cleanText("🕰\ud83d x \udd70")).toBe("🕰\ufffd x \ufffd");
  });
});
