import { parse } from "csv-parse/sync";

/** Bounds of the cells of a line: first character and the one after the last of each, in turn. */
export type CellBounds = readonly number[];

/**
 * Cuts a line into cells; empty ones at its end are none.
 *
 * @param line - the line
 * @param separator - what parts the cells; a blank means that they are not parted
 * @returns their bounds; null where quotes are not as they must be
 *
 * Source: RFC 4180. Exact case: `"a, b",1,` has two cells.
 */
export function splitCells(line: string, separator: string): CellBounds | null {
  if (separator === " ") return [0, line.length];
  const bounds: number[] = [];
  let from = 0;
  if (line.includes('"')) {
    let cells: string[];
    try {
      cells = parse(line, { delimiter: separator, trim: true })[0] ?? [];
    } catch {
      return null;
    }
    for (const cell of cells) {
      const at = line.indexOf(cell, from);
      // A doubled quote inside: what stands there is no number.
      if (at < 0) bounds.push(from, from);
      else {
        bounds.push(at, at + cell.length);
        from = at + cell.length;
      }
    }
  } else {
    for (let to = 0; to >= 0; from = to + 1) {
      to = line.indexOf(separator, from);
      bounds.push(from, to < 0 ? line.length : to);
    }
  }
  while (bounds.length > 2 && line.slice(bounds.at(-2), bounds.at(-1)).trim() === "") {
    bounds.length -= 2;
  }
  return bounds;
}
