import { Parser } from "yaml";

/** What is needed of a concrete-syntax token to walk it. */
interface Token {
  readonly value?: unknown;
  readonly items?: readonly { readonly key?: unknown; readonly value?: unknown }[];
}

const isToken = (value: unknown): value is Token => typeof value === "object" && value !== null;

/** How large a YAML text is as a tree. */
export interface TextExtent {
  /** The greatest depth of sections and lists; 1 for a plain value, 0 for an empty text. */
  readonly depth: number;
  /** How many keys, values, sections and lists there are. */
  readonly nodes: number;
}

/**
 * How deep the sections and lists of a YAML text are nested and how many nodes it has, found without
 * recursion.
 *
 * To be asked before the text is composed into a document, which recurses and would exhaust the
 * stack on a text made to do so.
 *
 * @param text - YAML
 * @returns greatest depth and number of nodes
 */
export function textExtent(text: string): TextExtent {
  let deepest = 0;
  let nodes = 0;
  const open: { token: Token; depth: number }[] = [];
  for (const token of new Parser().parse(text)) open.push({ token: token as Token, depth: 0 });
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { token, depth } = next;
    nodes += 1;
    if (depth > deepest) deepest = depth;
    if (isToken(token.value)) open.push({ token: token.value, depth: depth + 1 });
    for (const item of token.items ?? []) {
      if (isToken(item.key)) open.push({ token: item.key, depth: depth + 1 });
      if (isToken(item.value)) open.push({ token: item.value, depth: depth + 1 });
    }
  }
  return { depth: deepest, nodes };
}
