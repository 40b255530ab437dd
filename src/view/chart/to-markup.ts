import { cleanText } from "./clean-text.ts";
import type { SvgNode } from "./svg-node.ts";

const references: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
  "\t": "&#9;",
  "\n": "&#10;",
  "\r": "&#13;",
};

const escapeText = (text: string): string =>
  cleanText(text).replace(/[&<>\r]/g, (character) => references[character]!);

/** Any text as XML and HTML show it, in content and in attributes. */
export const escaped = (text: string): string =>
  cleanText(text).replace(/[&<>"'\t\n\r]/g, (character) => references[character]!);

/**
 * An SVG element as text, one element a line, so that two versions of a picture compare line by line.
 *
 * An element that holds text is printed in one line, since white space inside it would be seen.
 *
 * @param node - the element; text in it may be any string
 * @returns well-formed XML with a line feed after each line
 *
 * Source: XML 1.0 (fifth edition), sections 2.4 and 3.3.3 (escapes; white space in attribute values).
 */
export function toMarkup(node: SvgNode): string {
  return print(node, "");
}

function print(node: SvgNode, indent: string): string {
  if (node.children.length === 0) {
    return `${indent}<${opening(node)}/>\n`;
  }
  if (node.children.some((child) => typeof child === "string")) {
    return `${indent}${inline(node)}\n`;
  }
  const inside = node.children.map((child) => print(child as SvgNode, `${indent}  `)).join("");
  return `${indent}<${opening(node)}>\n${inside}${indent}</${node.tag}>\n`;
}

function inline(node: SvgNode): string {
  const inside = node.children
    .map((child) => (typeof child === "string" ? escapeText(child) : inline(child)))
    .join("");
  return `<${opening(node)}>${inside}</${node.tag}>`;
}

function opening(node: SvgNode): string {
  const attributes = Object.entries(node.attrs).map(
    ([name, value]) => ` ${name}="${escaped(value)}"`,
  );
  return node.tag + attributes.join("");
}
