import { readColumnName } from "./column-name.ts";
import { type Format, type Row, scanRow } from "./scan-row.ts";
import { readUnit, type Unit } from "./units.ts";

/** Names of the columns, and units in a line of their own; empty where there are none. */
export interface Names {
  readonly written: readonly string[];
  readonly units: readonly (Unit | null)[];
  /** The lines in which they stand, without blanks around them. */
  readonly lines: readonly string[];
  /** What is wrong with them; empty where nothing is. */
  readonly why: string;
}

/** Lines above the data that may hold names. */
const searched = 4;

/**
 * Finds the names of the columns in the lines above the data, which may be comments: the nearest line that has as many
 * of them as there are columns and holds no numbers.
 *
 * @param above - lines above the data that are not blank
 * @param format - how the cells are parted
 * @param width - cells of a line of data; of lines parted by blanks the items count
 * @param first - the first line of data
 * @returns the names
 *
 * Exact case: "time;period", "s;ms" are two names and two units.
 */
export function findNames(
  above: readonly string[],
  format: Format,
  width: number,
  first: Row,
): Names {
  let units: (Unit | null)[] = [];
  const lines: string[] = [];
  for (const line of above.slice(-searched).reverse()) {
    const text = line.replace(/^\s*(?:[#%!]|\/\/)+\s*/, "");
    const cells =
      format.separator === " " ? wordsFor(text, format, first) : cellsOf(text, format, width);
    if (cells === null) continue;
    lines.push(line.trim());
    if (units.length === 0 && cells.every((cell) => cell === "" || readUnit(bare(cell)) !== null)) {
      units = cells.map((cell) => readUnit(bare(cell)));
      // The name of a single column may be its unit alone.
      if (cells.length > 1 || above.length > 1) continue;
    }
    return { written: cells, units, lines, why: "" };
  }
  const nearest = above.at(-1);
  const fewer =
    nearest === undefined || format.separator === " " ? [] : nearest.split(format.separator);
  const isNames =
    fewer.length > 1 &&
    fewer.length < width &&
    fewer.some((cell) => readColumnName(cell).role !== null);
  const why = isNames
    ? `has ${width} columns, and ${fewer.length} names in the line above them; every column needs a name, which may be empty (a decimal comma needs another separator)`
    : "";
  return { written: [], units, lines, why };
}

const bare = (text: string) => text.replace(/^[([](.*)[)\]]$/, "$1").trim();

function cellsOf(text: string, format: Format, width: number): string[] | null {
  const row = scanRow(text, format);
  if (row === null || row.items.some(({ kind }) => kind !== "missing" && kind !== "number"))
    return null;
  const cells: string[] = [];
  for (let i = 0; i < row.cells.length; i += 2)
    cells.push(text.slice(row.cells[i], row.cells[i + 1]).trim());
  if (
    row.items.some(({ kind, cell }) => kind === "number" && /^[-+\d.,\s]+$/.test(cells[cell] ?? ""))
  )
    return null;
  // Data may end in empty cells, which are none.
  if (cells.length < width || !cells.some((cell) => /\p{L}/u.test(cell))) return null;
  return width === 1 && cells.length > 1 ? null : cells;
}

/** Words that stand one over each item; units in brackets belong to the word before. */
function wordsFor(text: string, format: Format, { items }: Row): string[] | null {
  const count = items.length;
  const row = scanRow(text, format);
  if (row === null || row.isGarbled || row.items.some(({ kind }) => kind !== "missing"))
    return null;
  if (!/\p{L}/u.test(text)) return null;
  if (count === 1) {
    // A title says nothing of a column.
    const { role, unit } = readColumnName(text);
    const isMark = row.items.length > 0;
    return role === null && (unit === null || isMark) ? null : [text.trim()];
  }
  // A line of data with a mark of overflow has as many words as a line of data.
  if (row.items.length > 0) return null;
  const words = text
    .trim()
    .replace(/\s+(?=[([/])|(?<=\/)\s+/g, "")
    .split(/\s+/);
  if (words.length === count) return words;
  const date = items.findIndex(({ kind }, i) => kind === "date" && items[i + 1]?.kind === "time");
  // One name for date and time.
  return date >= 0 && words.length === count - 1
    ? [...words.slice(0, date), "", ...words.slice(date)]
    : null;
}
