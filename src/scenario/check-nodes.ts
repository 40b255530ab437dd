import { type Document, isAlias, isNode, isScalar, type Node, type Pair, visit } from "yaml";

/** A fault of the text found in its tree, at a character offset. */
export interface NodeFault {
  readonly offset: number;
  readonly message: string;
  readonly hint: string;
}

/** A key with its offset in the text. */
interface PlainKey {
  readonly name: string;
  readonly offset: number;
}

const offsetOf = (node: unknown): number => (isNode(node) ? (node.range?.[0] ?? 0) : 0);

function plainKey(pair: Pair): PlainKey | null {
  const { key } = pair;
  return isScalar(key) && (typeof key.value === "string" || Number.isFinite(key.value))
    ? { name: String(key.value), offset: offsetOf(key) }
    : null;
}

/**
 * Looks for what YAML allows but a scenario does not: keys given twice or not plain text, tags,
 * aliases of nothing or of what they stand in.
 *
 * @param document - the composed document
 * @returns the first fault of the text, or null
 */
export function faultOfNodes(document: Document): NodeFault | null {
  let fault: NodeFault | null = null;
  const stop = (offset: number, message: string, hint = "") => {
    fault = { offset, message, hint };
    return visit.BREAK;
  };
  const stopAtTag = (node: Node) =>
    isAlias(node) || node.tag === undefined
      ? undefined
      : stop(offsetOf(node), `the tag ${node.tag} is not used in scenarios`, "leave it out");
  visit(document, {
    // Asked of scalars and lists here, and below of maps: a node has one visitor, the most special.
    Node: (_key, node: Node) => stopAtTag(node),
    Alias(_key, node, ancestors) {
      const target = node.resolve(document);
      if (target === undefined) {
        return stop(
          offsetOf(node),
          `the alias *${node.source} has no anchor before it`,
          "write the value out",
        );
      }
      if (ancestors.includes(target)) {
        return stop(
          offsetOf(node),
          `the alias *${node.source} stands in what it names`,
          "write the value out",
        );
      }
    },
    Map(_key, map) {
      if (map.tag !== undefined) return stopAtTag(map);
      const seen = new Set<string>();
      for (const pair of map.items) {
        const key = plainKey(pair);
        if (key === null)
          return stop(
            offsetOf(pair.key ?? map),
            "a key must be plain text",
            "write it as name: value, and a decimal with a point",
          );
        if (seen.has(key.name)) {
          return stop(
            key.offset,
            `the key ${JSON.stringify(key.name)} is given twice`,
            "keep one of the two",
          );
        }
        seen.add(key.name);
      }
    },
  });
  return fault;
}
