import { type Item, type NumberStyle, type Rest, scanCell, unitAlone } from "./line-scanner.ts";
import { splitCells } from "./split-cells.ts";

/** How a log is laid out: what parts its cells, and how its numbers are written. */
export interface Format extends NumberStyle {
  readonly separator: string;
  /** Whether a comma stands before the thousandths of a second, though it parts the cells as well. */
  readonly commaSeconds: boolean;
}

/** A line, taken apart. */
export interface Row extends Rest {
  /** The line; with a dot in a time of day where it has a comma that parts no cells. */
  readonly text: string;
  readonly items: readonly Item[];
  /** Place of each item: that of its cell, and in it. */
  readonly slots: readonly number[];
  readonly cells: readonly number[];
}

/** Such as in 08:00:10,123. */
export const commaBeforeThousandths = /(\d:\d\d:\d\d),(?=\d{3}(?:[^\d.]|$))/g;

/** Items that one cell may hold. */
export const slotsOfCell = 64;

/**
 * Takes a line apart.
 *
 * @param line - the line, without its end
 * @param format - of its log
 * @returns what stands in it; null where its quotes are wrong
 */
export function scanRow(line: string, format: Format): Row | null {
  const text = format.commaSeconds ? line.replace(commaBeforeThousandths, "$1.") : line;
  const cells = splitCells(text, format.separator);
  if (cells === null) return null;
  const items: Item[] = [];
  let rest: Rest = { trailing: "", isGarbled: false };
  for (let cell = 0; 2 * cell < cells.length; cell++) {
    const [from, to] = [cells[2 * cell]!, cells[2 * cell + 1]!];
    if (from === to) continue;
    const before = items.at(-1);
    const alone = before?.kind === "number" && before.cell === cell - 1 && before.unit === null;
    const unit = alone ? unitAlone(text.slice(from, to)) : null;
    if (unit !== null) before!.unit = unit;
    else {
      const { trailing, isGarbled } = scanCell(text, from, to, cell, format, items);
      rest = { trailing, isGarbled: isGarbled || rest.isGarbled };
    }
  }
  let [cell, place] = [-1, 0];
  const slots = items.map((item) => {
    place = item.cell === cell ? place + 1 : 0;
    cell = item.cell;
    return cell * slotsOfCell + Math.min(place, slotsOfCell - 1);
  });
  return { text, items, slots, cells, ...rest };
}

/** What stands in a cell, blanks and all; empty where there is no such cell. */
export const cellText = ({ text, cells }: Row, cell: number): string =>
  text.slice(cells[2 * cell] ?? 0, cells[2 * cell + 1] ?? 0);
