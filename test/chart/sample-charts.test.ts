import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ChartOptions, SvgNode } from "../../src/view/chart/index.ts";
import { darkTheme, textWidth, toMarkup } from "../../src/view/chart/index.ts";
import { anyText } from "./any-text.ts";
import { elementsOf, readXml, textOf } from "./read-xml.ts";
import { sampleCharts } from "./sample-charts.ts";

const options: ChartOptions = { title: "Observatory & harbour", idPrefix: "sample" };

/** Where a line of text lies: its width on the wide side, four fifths of its size above the base line. */
function boxOf(node: SvgNode) {
  const [x, y, size] = ["x", "y", "font-size"].map((name) => Number(node.attrs[name])) as [
    number,
    number,
    number,
  ];
  const width = textWidth(textOf(node), size);
  const share = { start: 0, middle: 0.5, end: 1 }[node.attrs["text-anchor"] ?? "start"]!;
  return {
    text: textOf(node),
    left: x - share * width,
    right: x + (1 - share) * width,
    top: y - 0.8 * size,
    bottom: y + 0.2 * size,
  };
}

describe.each(Object.entries(sampleCharts))("the picture of %s", (name, draw) => {
  it("reads as it did", async () => {
    await expect(toMarkup(draw(options))).toMatchFileSnapshot(`../charts/${name}.svg`);
  });

  it("has a title and a description with ids of its own", () => {
    const node = draw({ ...options, idPrefix: "fig-7" });
    expect(node.attrs.role).toBe("img");
    expect(node.attrs["aria-labelledby"]).toBe("fig-7-title fig-7-desc");
    const [title] = elementsOf(node, "title");
    const [desc] = elementsOf(node, "desc");
    expect(title!.attrs.id).toBe("fig-7-title");
    expect(textOf(title!)).toMatch(/: Observatory & harbour$/);
    expect(desc!.attrs.id).toBe("fig-7-desc");
    expect(textOf(desc!)).toMatch(/\d.*\.$/s);
    const ids = [...toMarkup(node).matchAll(/ id="([^"]*)"/g)].map((match) => match[1]!);
    expect(ids.every((id) => id.startsWith("fig-7-"))).toBe(true);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it.each([
    ["wide", {}],
    ["narrow", { width: 320, height: 300 }],
    ["large", { width: 1200, height: 700 }],
    ["dark", { theme: darkTheme }],
  ])("has no clipped and no overlapping text when %s", (_, change) => {
    const node = draw({ ...options, ...change });
    const [width, height] = [Number(node.attrs.width), Number(node.attrs.height)];
    const boxes = elementsOf(node, "text").map(boxOf);
    expect(boxes.length).toBeGreaterThan(8);
    for (const [i, a] of boxes.entries()) {
      expect(a.left).toBeGreaterThanOrEqual(0);
      expect(a.right).toBeLessThanOrEqual(width);
      expect(a.top).toBeGreaterThanOrEqual(0);
      expect(a.bottom).toBeLessThanOrEqual(height);
      const met = boxes
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        .map((b) => `"${a.text}" on "${b.text}"`);
      expect(met).toEqual([]);
    }
  });

  it("needs no style sheet, script, font or file, and has two decimals at most", () => {
    const markup = toMarkup(draw(options)).replace(/>[^<]*</g, "><");
    expect(markup).toMatch(
      /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="760" height="\d+/,
    );
    expect(markup).not.toMatch(/<style|<script|href=|url\((?!#)/);
    expect(markup.match(/\d\.\d{3,}(?=[ ,"MLHVAZmlhvaz-])/g)).toBeNull();
  });

  it("stays one picture whatever the title", () => {
    const shape = elementsOf(readXml(toMarkup(draw({ ...options, title: "x" }))), "path").length;
    fc.assert(
      fc.property(anyText, (title) => {
        const read = readXml(toMarkup(draw({ ...options, title: `x${title}` })));
        expect(elementsOf(read, "script")).toEqual([]);
        expect(elementsOf(read, "path").length).toBe(shape);
      }),
      { seed: 16, numRuns: 25 },
    );
  });

  it("refuses a prefix that is no id, and sizes too small to read", () => {
    expect(() => draw({ ...options, idPrefix: 'a"b' })).toThrow("idPrefix must be");
    expect(() => draw({ ...options, width: 100 })).toThrow("width must be >= 280 px, got 100");
    expect(() => draw({ ...options, height: NaN })).toThrow("height must be >= 240 px, got NaN");
  });
});
