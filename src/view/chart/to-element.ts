import { cleanText } from "./clean-text.ts";
import type { SvgNode } from "./svg-node.ts";

const svgNamespace = "http://www.w3.org/2000/svg";

/**
 * An SVG element as an element of a page, the same picture as `toMarkup` prints.
 *
 * @param node - the element as plain data
 * @param document - the document that makes it
 * @returns the new element, not yet in the document
 *
 * Source: DOM Standard, createElementNS. No markup is parsed, so text in it can never become an element.
 */
export function toElement(
  node: SvgNode,
  document: Pick<Document, "createElementNS" | "createTextNode">,
): SVGElement {
  const element = document.createElementNS(svgNamespace, node.tag) as SVGElement;
  for (const [name, value] of Object.entries(node.attrs)) {
    if (name !== "xmlns") {
      element.setAttribute(name, cleanText(value));
    }
  }
  for (const child of node.children) {
    element.append(
      typeof child === "string"
        ? document.createTextNode(cleanText(child))
        : toElement(child, document),
    );
  }
  return element;
}
