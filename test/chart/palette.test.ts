import { describe, expect, it } from "vitest";
import { colorOf, darkTheme, lightTheme, seriesStyle } from "../../src/view/chart/index.ts";

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
function luminance(color: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].sort((p, q) => p - q) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

describe.each([
  ["light", lightTheme],
  ["dark", darkTheme],
])("the %s theme", (_, theme) => {
  it("has text at 4.5:1 or more (WCAG 2.2, 1.4.3)", () => {
    expect(contrast(theme.ink, theme.paper)).toBeGreaterThanOrEqual(7);
    expect(contrast(theme.muted, theme.paper)).toBeGreaterThanOrEqual(4.5);
  });

  it("has lines at 3:1 or more (WCAG 2.2, 1.4.11)", () => {
    for (const hue of Object.values(theme.hues)) {
      expect(contrast(hue, theme.paper)).toBeGreaterThanOrEqual(3);
    }
  });

  it("takes its hues from the set of Okabe and Ito (2008; values from memory)", () => {
    const okabeIto = ["#E69F00", "#56B4E9", "#009E73", "#F0E442", "#0072B2", "#D55E00", "#CC79A7"];
    const hues = Object.values(theme.hues);
    for (const hue of hues) expect(okabeIto).toContain(hue);
    expect(new Set(hues).size).toBe(hues.length);
  });
});

describe("seriesStyle", () => {
  it("differs from every other in two signs at least, so that colour is never the only one", () => {
    const styles = Array.from({ length: 25 }, (_, i) => seriesStyle(i));
    for (let i = 0; i < styles.length; i++) {
      for (let j = 0; j < i; j++) {
        const [a, b] = [styles[i]!, styles[j]!];
        const signs = [a.color !== b.color, a.dash !== b.dash, a.marker !== b.marker];
        expect(signs.filter(Boolean).length).toBeGreaterThanOrEqual(2);
      }
    }
    expect(() => seriesStyle(-1)).toThrow(RangeError);
  });

  it("draws ink in the colour of the text", () => {
    expect(colorOf("ink", darkTheme)).toBe(darkTheme.ink);
  });
});
