import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type SvgNode, svgNode, toElement, toMarkup } from "../../src/view/chart/index.ts";
import { anyText } from "./any-text.ts";
import { readXml } from "./read-xml.ts";

/** As much of a document as making elements needs; text nodes and elements in one tree. */
class Element {
  readonly children: (Element | string)[] = [];
  readonly attrs: Record<string, string> = {};
  readonly namespace: string;
  readonly tag: string;
  constructor(namespace: string, tag: string) {
    this.namespace = namespace;
    this.tag = tag;
  }
  setAttribute(name: string, value: string) {
    this.attrs[name] = value;
  }
  append(child: Element | string) {
    this.children.push(child);
  }
}
const document = {
  createElementNS: (namespace: string, tag: string) => new Element(namespace, tag),
  createTextNode: (text: string) => text,
} as unknown as Pick<Document, "createElementNS" | "createTextNode">;

const plain = (element: Element): SvgNode => ({
  tag: element.tag,
  attrs: element.attrs,
  children: element.children
    .map((child) => (typeof child === "string" ? child : plain(child)))
    .filter((child) => child !== ""),
});

describe("toElement", () => {
  it("makes the same tree as a reader of the markup sees", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const node = svgNode("text", { "aria-label": text }, text, svgNode("tspan", {}, text));
        const element = toElement(node, document) as unknown as Element;
        expect(plain(element)).toEqual(readXml(toMarkup(node)));
      }),
      { seed: 7 },
    );
  });

  it("makes elements of SVG, not of HTML, and needs no xmlns attribute", () => {
    const node = svgNode("svg", { xmlns: "http://www.w3.org/2000/svg", width: 1 });
    const element = toElement(node, document) as unknown as Element;
    expect(element.namespace).toBe("http://www.w3.org/2000/svg");
    expect(element.attrs).toEqual({ width: "1" });
  });
});
