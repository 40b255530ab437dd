import type { Column, Layout } from "./detect-layout.ts";
import type { Item } from "./line-scanner.ts";
import { cellText, type Row, slotsOfCell } from "./scan-row.ts";

/**
 * Whether a line is laid out as the others are, so that it is a reading: the same items, the reading with the same label
 * and a unit of the same kind. A mark of a missing value may stand for the reading.
 *
 * @param row - the line
 * @param layout - of its log
 */
export function matchesLayout(row: Row, layout: Layout): boolean {
  const { value } = layout;
  // A rule drawn under the names.
  if (row.items.length > 1 && row.items.every(({ kind }) => kind === "missing")) return false;
  const isTable = layout.format.separator !== " ";
  if (!(isTable ? isLikeTable(row, layout) : isLikeLine(row, layout))) return false;
  const item = itemAt(row, value.slot);
  if (item?.kind !== "number") return true;
  const of = item.unit?.of ?? null;
  return (
    item.label === value.label &&
    of === value.unit &&
    (isTable || layout.trailing === null || row.trailing === layout.trailing)
  );
}

/** The item that stands in a place. */
export const itemAt = (row: Row, slot: number): Item | undefined =>
  row.items[row.slots.indexOf(slot)];

/** Item by item as the pattern has it. */
function isLikeLine({ items }: Row, { pattern }: Layout): boolean {
  return (
    items.length === pattern.length &&
    items.every(
      ({ kind }, i) => kind === pattern[i] || (kind === "missing" && pattern[i] === "number"),
    )
  );
}

/** In the columns that every line has; the others may hold anything. */
function isLikeTable(row: Row, layout: Layout): boolean {
  const { columns, value, date, time, stamp, width } = layout;
  if (row.cells.length > 2 * width) return false;
  const needed = columns.filter((column) => column.isAlways || column === value);
  const isKey = (column: Column) =>
    column !== value && (cellOf(column) === 0 || [date, time, stamp].includes(column));
  const isThere = needed.every((column) => {
    const item = itemAt(row, column.slot);
    if (item?.kind === column.kind) return !isKey(column) || item.label === column.label;
    // A summary under the columns has nothing, or a word, in the first or in that of the stamps.
    if (isKey(column)) return false;
    return item === undefined
      ? cellText(row, cellOf(column)).trim() === "" && hasCell(row, column, layout)
      : item.kind === "missing" && column.kind === "number";
  });
  // Two numbers in a cell where the other lines have one are half a number each.
  const cells = new Set(needed.map(cellOf));
  const isFull = row.items.every(
    ({ cell }, i) => !cells.has(cell) || columns.some(({ slot }) => slot === row.slots[i]),
  );
  return isThere && isFull;
}

/** Whether a cell is there, though it may be empty. */
const hasCell = ({ text }: Row, column: Column, { format, value }: Layout) =>
  column !== value || text.split(format.separator).length > cellOf(column);

const cellOf = ({ slot }: Column) => Math.floor(slot / slotsOfCell);
