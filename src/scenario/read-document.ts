import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  parseDocument,
  visit,
} from "yaml";
import type { KeyPath } from "../keys/index.ts";
import { faultOfNodes } from "./check-nodes.ts";
import { ScenarioError } from "./scenario-error.ts";
import { textExtent } from "./text-extent.ts";

/** A line and column, each from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** A YAML or JSON text, read: its plain value, and where in the text each key stands. */
export interface ReadDocument {
  readonly value: unknown;
  /** Whether the text itself has something at this path. */
  readonly has: (path: KeyPath) => boolean;
  /** Place of the value (or of the key) at a path, or of the nearest section above it. */
  readonly place: (path: KeyPath, at: "key" | "value") => Place;
}

/** The longest text taken, in bytes of UTF-8: a scenario has a few thousand. */
const longestText = 1_000_000;
/** The deepest nesting taken; a scenario needs five. */
const deepestNesting = 40;
/** The most keys and values taken: room for some thousand disturbances. */
const mostNodes = 50_000;

/** What no text holds: control signs but tab and line ends, and the mark of undecodable bytes. */
const foreign = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffc\u{10000}-\u{10ffff}]/u;

/** Offsets of key and value of the node at a path, and how much of the path there is. */
interface Found {
  readonly depth: number;
  readonly key: number;
  readonly value: number;
}

function find(document: Document, path: KeyPath): Found {
  let node: unknown = document.contents;
  let found: Found = { depth: 0, key: 0, value: document.contents?.range?.[0] ?? 0 };
  for (const step of path) {
    const section = isAlias(node) ? node.resolve(document) : node;
    let key: unknown = null;
    let value: unknown;
    if (isMap(section)) {
      const pair = section.items.find(
        (item) => isScalar(item.key) && String(item.key.value) === String(step),
      );
      if (pair === undefined) break;
      key = pair.key;
      value = pair.value;
    } else if (isSeq(section) && section.items[Number(step)] !== undefined) {
      value = section.items[Number(step)];
    } else break;
    const offset = (part: unknown) =>
      (part as { range?: [number, number, number] } | null)?.range?.[0];
    const valueOffset = offset(value) ?? offset(key) ?? found.value;
    found = { depth: found.depth + 1, key: offset(key) ?? valueOffset, value: valueOffset };
    node = value;
  }
  return found;
}

/**
 * Reads a YAML text; JSON is YAML.
 *
 * @param source - one document; a byte order mark before it is passed over
 * @param file - what to call it in complaints
 * @returns its value and the places in it
 * @throws ScenarioError with one complaint where the text is empty, binary, too long, too deep, not
 * YAML, or uses what scenarios do not: several documents, tags, other YAML versions, keys given twice
 */
export function readDocument(source: string, file: string): ReadDocument {
  const text = source.replace(/^\ufeff/, "");
  const lines = new LineCounter();
  const refuse = (message: string, place: Place = { line: 1, column: 1 }, hint = ""): never => {
    throw new ScenarioError([{ file, ...place, path: "", message, hint }]);
  };
  const placeOf = (offset: number): Place => {
    const { line, col } = lines.linePos(Math.min(offset, text.length));
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };

  if (text.length > longestText || new TextEncoder().encode(text).length > longestText) {
    refuse("is longer than 1 MB, so this is no scenario", undefined, "give the scenario itself");
  }
  const sign = foreign.exec(text);
  if (sign !== null) {
    const before = text.slice(0, sign.index).split(/\r\n|\n/);
    const place = { line: before.length, column: before.at(-1)!.length + 1 };
    refuse("is not text in UTF-8 from here on", place, "save it as plain text in UTF-8");
  }
  const start = "begin with a copy of a demo scenario";
  if (text.trim() === "") refuse("is empty", undefined, start);
  const extent = textExtent(text);
  if (extent.depth > deepestNesting) {
    refuse(`is nested more than ${deepestNesting} deep, so this is no scenario`);
  }
  if (extent.nodes > mostNodes) {
    refuse(`has more than ${mostNodes} keys and values, so this is no scenario`);
  }

  const document = parseDocument(text, {
    lineCounter: lines,
    prettyErrors: false,
    // Keys given twice are found by faultOfNodes, in time that grows only with their number.
    uniqueKeys: false,
    logLevel: "error",
  });
  const fault = [...document.errors, ...document.warnings].sort((a, b) => a.pos[0] - b.pos[0])[0];
  if (fault?.code === "MULTIPLE_DOCS") {
    refuse("holds several documents", placeOf(fault.pos[0]), "a scenario is one");
  }
  if (fault !== undefined) {
    refuse(`is not YAML: ${fault.message.split("\n")[0]}`, placeOf(fault.pos[0]));
  }
  if (document.directives?.yaml.explicit && document.directives.yaml.version !== "1.2") {
    refuse("must be YAML 1.2", undefined, "leave the %YAML line out");
  }
  const nodeFault = faultOfNodes(document);
  if (nodeFault !== null) refuse(nodeFault.message, placeOf(nodeFault.offset), nodeFault.hint);
  if (document.contents === null) refuse("holds nothing but comments", undefined, start);

  return {
    value: plainValue(document, () =>
      refuse("has more aliases than any scenario needs", undefined, "write values out"),
    ),
    has: (path) => find(document, path).depth === path.length,
    place: (path, at) => {
      const found = find(document, path);
      // Nothing there: the heading of the section it is missing from says more than its first line.
      return placeOf(found.depth < path.length && found.depth > 0 ? found.key : found[at]);
    },
  };
}

function plainValue(document: Document, refuse: () => never): unknown {
  // Minus zero is zero: JSON does not tell them apart, and the way back goes through JSON.
  visit(document, {
    Scalar(_key, node) {
      if (node.value === 0) node.value = 0;
    },
  });
  try {
    return document.toJS();
  } catch (error) {
    // The package guards against texts whose aliases multiply into something huge.
    if (error instanceof ReferenceError) return refuse();
    throw error;
  }
}
