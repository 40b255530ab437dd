import type { SvgNode } from "../../src/view/chart/index.ts";

/**
 * A strict reader of the XML that pictures are made of, written from the productions of XML 1.0 (fifth
 * edition): Char 2, Name 5 (ASCII part), AttValue 10, CharData 14, STag 40, Attribute 41, ETag 42,
 * EmptyElemTag 44, CharRef 66. It knows nothing of how they are printed, and throws at the first breach.
 */
export function readXml(text: string): SvgNode {
  const forbidden = [...text].find((character) => {
    const code = character.codePointAt(0)!;
    const isChar =
      code === 9 ||
      code === 10 ||
      code === 13 ||
      (code >= 0x20 && code <= 0xd7ff) ||
      (code >= 0xe000 && code <= 0xfffd) ||
      code >= 0x10000;
    return !isChar;
  });
  if (forbidden !== undefined) throw new Error(`not a Char: ${forbidden.codePointAt(0)}`);
  let at = 0;
  const take = (pattern: RegExp): RegExpExecArray => {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match === null) throw new Error(`expected ${pattern} at ${text.slice(at, at + 40)}`);
    at += match[0].length;
    return match;
  };
  const element = (): SvgNode => {
    const tag = take(/<([A-Za-z_:][\w:.-]*)/y)[1]!;
    const attrs: Record<string, string> = {};
    for (;;) {
      const match = take(/\s+([A-Za-z_:][\w:.-]*)="([^<"]*)"|(\/?>)/y);
      if (match[3] === "/>") return { tag, attrs, children: [] };
      if (match[3] === ">") break;
      if (match[1]! in attrs) throw new Error(`attribute twice: ${match[1]}`);
      // Section 3.3.3: raw white space in a value becomes a space, referenced white space stays.
      attrs[match[1]!] = resolve(match[2]!.replace(/[\t\n\r]/g, " "));
    }
    const children: (SvgNode | string)[] = [];
    for (;;) {
      const data = take(/[^<]*/y)[0];
      if (data.includes("]]>")) throw new Error("]]> in character data");
      if (data !== "") children.push(resolve(data.replace(/\r\n?/g, "\n")));
      if (text.startsWith("</", at)) {
        const end = take(/<\/([A-Za-z_:][\w:.-]*)\s*>/y)[1];
        if (end !== tag) throw new Error(`</${end}> ends <${tag}>`);
        return { tag, attrs, children };
      }
      children.push(element());
    }
  };
  const root = element();
  take(/\s*$/y);
  return root;
}

const names: Record<string, string> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

const resolve = (text: string): string =>
  text.replace(/&([^;\s]*;?)/g, (_, body: string) => {
    const match = /^(?:(amp|lt|gt|quot|apos)|#(\d+));$/.exec(body);
    if (match === null) throw new Error(`bad reference &${body}`);
    return match[1] ? names[match[1]]! : String.fromCodePoint(Number(match[2]));
  });

/** All elements of a kind, in document order. */
export function elementsOf(node: SvgNode, tag: string): SvgNode[] {
  const inside = node.children.flatMap((child) =>
    typeof child === "string" ? [] : elementsOf(child, tag),
  );
  return node.tag === tag ? [node, ...inside] : inside;
}

/** All text of an element. */
export function textOf(node: SvgNode): string {
  return node.children.map((child) => (typeof child === "string" ? child : textOf(child))).join("");
}
