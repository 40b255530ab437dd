import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cleanText, type SvgNode, svgNode, toMarkup } from "../../src/view/chart/index.ts";
import { anyText } from "./any-text.ts";
import { readXml } from "./read-xml.ts";

/** The node that a reader of the text should see: white space between elements is of no meaning. */
const asRead = (node: SvgNode): SvgNode => ({
  tag: node.tag,
  attrs: Object.fromEntries(
    Object.entries(node.attrs).map(([name, value]) => [name, cleanText(value)]),
  ),
  children: node.children
    .map((child) => (typeof child === "string" ? cleanText(child) : asRead(child)))
    .filter((child) => child !== ""),
});

const withoutIndent = (node: SvgNode): SvgNode => ({
  ...node,
  children: node.children.some((child) => typeof child !== "string")
    ? node.children
        .filter((child) => typeof child !== "string" || child.trim() !== "")
        .map((child) => (typeof child === "string" ? child : withoutIndent(child)))
    : node.children,
});

describe("toMarkup", () => {
  it("is read back as the same picture whatever text stands in it", () => {
    fc.assert(
      fc.property(anyText, anyText, (label, value) => {
        const node = svgNode(
          "svg",
          { "aria-label": value },
          svgNode("title", {}, label),
          svgNode("g", { id: value }, svgNode("path", { d: "M0 0" })),
        );
        expect(withoutIndent(readXml(toMarkup(node)))).toEqual(asRead(node));
      }),
      { seed: 6, numRuns: 500 },
    );
  });

  it("is read by a reader that refuses what is not well-formed", () => {
    for (const bad of [
      "<a>",
      "<a b='1'/>",
      '<a b="<"/>',
      "<a>&x;</a>",
      "<a></b>",
      "<a>\u0001</a>",
    ]) {
      expect(() => readXml(bad)).toThrow();
    }
  });

  it("prints one element a line, and text without added white space", () => {
    const node = svgNode(
      "g",
      { fill: "none" },
      svgNode("path", { d: "M0 0" }),
      svgNode("text", { x: 1 }, "a ", svgNode("tspan", {}, "b")),
    );
    expect(toMarkup(node)).toBe(
      '<g fill="none">\n  <path d="M0 0"/>\n  <text x="1">a <tspan>b</tspan></text>\n</g>\n',
    );
  });

  it("escapes what XML 1.0, section 2.4, says must be", () => {
    expect(toMarkup(svgNode("text", { id: `"'<&>\n` }, "a < b & c ]]> d"))).toBe(
      '<text id="&quot;&#39;&lt;&amp;&gt;&#10;">a &lt; b &amp; c ]]&gt; d</text>\n',
    );
  });
});
