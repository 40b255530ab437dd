import { plainText } from "./plain-text.ts";

/** Characters that take two cells: Hangul, kana, ideographs, full-width forms, emoji (Unicode TR 11, in short). */
const wide =
  /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u;
const emoji = /\p{Emoji_Presentation}/u;
const joins = /\p{M}|\p{Cf}/u;

/**
 * How many cells of a terminal a line of text takes.
 *
 * @param text - one line without control characters
 * @returns cells
 *
 * Source: Unicode Standard Annex 11, wide and full-width characters. Exact case: `aé時` takes 4.
 */
export function cellWidth(text: string): number {
  let cells = 0;
  for (const { segment } of new Intl.Segmenter("en").segment(text)) {
    // A letter with its marks, or an emoji of several characters, is as wide as its first.
    const first = String.fromCodePoint(segment.codePointAt(0)!);
    cells += wide.test(first) || emoji.test(first) ? 2 : joins.test(first) ? 0 : 1;
  }
  return cells;
}

/**
 * Text that fills an exact number of cells: cut with an ellipsis, or filled with spaces.
 *
 * @param text - any text, users' text included; control characters become U+FFFD
 * @param cells - cells to fill; integer >= 1
 * @param side - where the text stands in its cells
 * @returns text of that width
 */
export function padCells(text: string, cells: number, side: "left" | "right"): string {
  let line = plainText(text.slice(0, 1000)).replace(/[\n\t]/g, "\ufffd");
  if (cellWidth(line) > cells) {
    let cut = "";
    let used = 1;
    for (const { segment } of new Intl.Segmenter("en").segment(line)) {
      used += cellWidth(segment);
      if (used > cells) break;
      cut += segment;
    }
    line = `${cut}…`;
  }
  const fill = " ".repeat(cells - cellWidth(line));
  return side === "left" ? line + fill : fill + line;
}
