import { isatty } from "node:tty";
import { styleText } from "node:util";
import { plainText } from "../view/chart/index.ts";
import type { ReportPart } from "../view/report/index.ts";

/** Tables and paragraphs as they were before they became lines; null where nobody asks. */
let printed: Map<string, ReportPart> | null = null;

/**
 * What a text for the terminal is made of: its tables as rows, its paragraphs unbroken.
 *
 * @param print - makes the text, by `textTable` and `wrap`
 * @returns the parts in order, paragraph by paragraph
 */
export function partsOf(print: () => string): ReportPart[][] {
  printed = new Map();
  try {
    const text = print();
    // Longest first: what is part of another is that other.
    const known = [...printed].sort(([a], [b]) => b.length - a.length);
    return text.split(/\n\n+/).map((paragraph) => {
      const parts: ReportPart[] = [];
      for (let rest = paragraph.replace(/^\n|\n$/g, ""); rest !== ""; ) {
        const found = known.find(([start]) => rest === start || rest.startsWith(`${start}\n`));
        const line = found?.[0] ?? rest.split("\n")[0]!;
        const last = parts.at(-1);
        // Lines that nobody broke are one sentence after another.
        if (found) parts.push(found[1]);
        else if (last !== undefined && "lines" in last) last.lines.push(line.trim());
        else parts.push({ lines: [line.trim()] });
        rest = rest.slice(line.length + 1);
      }
      return parts;
    });
  } finally {
    printed = null;
  }
}

type Format = Parameters<typeof styleText>[0];

/**
 * Whether stdout takes colour: a terminal, and neither NO_COLOR, FORCE_COLOR=0 (as Node has it, `tty.getColorDepth`)
 * nor a dumb terminal says otherwise.
 */
export function hasColor(): boolean {
  if (printed !== null) return false;
  const { NO_COLOR, FORCE_COLOR, TERM } = process.env;
  if (NO_COLOR !== undefined && NO_COLOR !== "") return false;
  if (FORCE_COLOR !== undefined && FORCE_COLOR !== "") return FORCE_COLOR !== "0";
  // In a worker too, where stdout is none of its own.
  return isatty(1) && TERM !== "dumb";
}

/** Text in a style where the terminal takes it; plain otherwise. Controls that the text brings along are taken out. */
export function styled(format: Format, text: string): string {
  const plain = plainText(text);
  return hasColor() ? styleText(format, plain, { validateStream: false }) : plain;
}

/** A number and the unit behind it, which no line break parts. */
const quantity = /(?<=\d) (?=(?:[pnµm]?s|min|h|days?|years|k?Hz|%|°C)(?:[^\w/]|\/day|$))/g;

/** Breaks prose into lines of at most `width` characters, each after the first indented; controls are taken out. */
export function wrap(text: string, width = 80, indent = ""): string {
  const lines: string[] = [];
  let line = "";
  for (const word of plainText(text).replace(quantity, "\u00a0").split(" ")) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent + word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  const broken = [...lines, line].join("\n").replaceAll("\u00a0", " ");
  printed?.set(broken, { text: plainText(text).replaceAll("\u00a0", " ").trim() });
  return broken;
}

/**
 * A plain table: first column to the left, the others to the right, two spaces between; controls are taken out.
 *
 * @param rows - cells; the first row is the head
 * @param left - columns set to the left
 */
export function textTable(
  rows: readonly (readonly string[])[],
  left: readonly number[] = [0],
): string {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]?.length ?? 0)));
  const table = rows
    .map((row) =>
      row
        .map((cell, i) => (left.includes(i) ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
  printed?.set(plainText(table), { rows, left });
  return plainText(table);
}

/** Rows of a label and a text, all texts in line, broken to 80 columns. */
export function labelled(rows: readonly (readonly [label: string, text: string])[]): string[] {
  const width = Math.max(...rows.map(([label]) => label.length));
  return rows.map(([label, text]) => {
    // No-break spaces hold what stands before the text together.
    const start = `${label.padEnd(width)}  `.replaceAll(" ", "\u00a0");
    const broken = wrap(start + text, 80, " ".repeat(width + 2));
    printed?.set(broken, { label: label.trim(), text });
    return broken;
  });
}

/** The line that tells of a file that was written. */
export const wroteLine = (path: string): string => plainText(`wrote ${path}`);
