import { median } from "../numeric/index.ts";
import { type Chosen, chooseColumns, isPlausible, quantityOf } from "./choose-columns.ts";
import { type ColumnName, columnKey, type Quantity, readColumnName } from "./column-name.ts";
import { findNames } from "./find-names.ts";
import type { Item } from "./line-scanner.ts";
import type { LogOptions } from "./log-options.ts";
import { NumberForm } from "./number-form.ts";
import { NumberReader } from "./number-reader.ts";
import { commaBeforeThousandths, type Format, type Row, scanRow, slotsOfCell } from "./scan-row.ts";
import type { Dimension } from "./units.ts";

/** A column of a log. */
export interface Column {
  readonly slot: number;
  readonly kind: "number" | "date" | "time";
  /** As written above it; empty without. */
  readonly written: string;
  readonly name: ColumnName;
  /** Words before its numbers. */
  readonly label: string;
  /** What the units beside its numbers measure; null without. */
  readonly unit: Dimension | null;
  /** Power of ten of the unit in the first line, or in the name. */
  readonly power: number;
  /** Whether nearly every line has it. */
  readonly isAlways: boolean;
  /** Its numbers in the lines looked at, by the unit that stands with them or in the name. */
  readonly values: Float64Array;
}

/** What a log is made of. */
export interface Layout {
  readonly format: Format;
  readonly columns: readonly Column[];
  /** Cells of a line. */
  readonly width: number;
  /** What follows each other in a line that blanks part. */
  readonly pattern: readonly Item["kind"][];
  /** Lines with the names of the columns, without blanks around them. */
  readonly names: readonly string[];
  /** Words after the last item, where nearly all lines have the same. */
  readonly trailing: string | null;
  readonly value: Column;
  readonly quantity: Quantity;
  /** Power of ten of the unit in the first line. */
  readonly power: number;
  /** Whether nothing but their size says what the numbers are. */
  readonly isAssumed: boolean;
  /** In what form the readings are written. */
  readonly form: NumberForm;
  readonly date: Column | null;
  readonly time: Column | null;
  /** Numbers that tell when. */
  readonly stamp: Column | null;
  readonly temperature: Column | null;
  readonly cycles: Column | null;
  readonly rate: Column | null;
  /** Cell of a column `flag`; -1 without. */
  readonly flagCell: number;
}

/** Lines looked at. */
const looked = 400;

/** A layout, how well it fits, or why there is none. */
interface Trial {
  readonly layout: Layout | null;
  readonly why: string;
  readonly isNear: boolean;
  readonly share: number;
  readonly isNamed: boolean;
  /** Share of the lines with digits that are no number. */
  readonly garbled: number;
}

/**
 * Finds out how a log is laid out, by trying what its lines allow: the layout in which most lines are alike and the
 * readings are near the nominal period.
 *
 * @param lines - lines that are not blank, from the first on
 * @param options - what is said beside the log
 * @returns the layout, or why there is none
 */
export function detectLayout(
  lines: readonly string[],
  options: LogOptions,
): { readonly layout: Layout | null; readonly why: string } {
  const data = lines.filter((line) => /\d/.test(line) && !isComment(line)).slice(0, looked);
  if (data.length === 0)
    return { layout: null, why: "holds no readings; expected at least one number a line" };
  const trials = formatsOf(data).map((format) => tryFormat(format, lines, data, options));
  // Three decimals and three digits more on most lines are one number rather than two columns.
  const grouped =
    data.filter((line) => /\d[.,]\d{3} \d{3}(?=\D|$)/.test(line)).length > data.length / 2 ? 3 : 0;
  // A column that is named as readings counts for more than numbers of the right size.
  const rank = (t: Trial) =>
    (t.layout === null ? 0 : 16) +
    (t.layout !== null && t.isNamed && quantityOf(t.layout.value.name.role) !== null ? 6 : 0) +
    (t.isNear ? 4 : 0) +
    (t.isNamed ? 1 : 0) +
    (t.layout?.format.blankGroups ? grouped : 0) +
    2 * t.share -
    4 * t.garbled;
  // Of equal ones the first stays first.
  const [best] = [...trials].sort((a, b) => rank(b) - rank(a));
  return best!;
}

/** Whether a line is a comment. */
export function isComment(line: string): boolean {
  return /^\s*(?:[#%!]|\/\/)/.test(line);
}

/** The ways in which these lines may be written, the likelier first. */
function formatsOf(data: readonly string[]): Format[] {
  const has = (pattern: RegExp) => data.some((line) => pattern.test(line));
  // Three decimals and three digits more, or a group that begins with 0, are no numbers of their own.
  const groups =
    has(/\d[.,]\d{3} \d{3}(?=\D|$)/) || has(/\d 0\d\d(?=[\D]|$)/) ? [true, false] : [false];
  const formats: Format[] = [];
  const hasComma = has(/,/);
  for (const blankGroups of groups) {
    for (const separator of [";", "\t", "|", " ", ","]) {
      if (separator !== " " && !has(new RegExp(`[${separator}]`))) continue;
      for (const decimal of [".", ","] as const) {
        if (decimal === separator || (decimal === "," && !hasComma)) continue;
        const format = { separator, decimal, blankGroups, commaSeconds: false };
        if (separator === "," && has(new RegExp(commaBeforeThousandths.source))) {
          const varied = new Set(data.map((line) => /\d:\d\d:\d\d,(\d{3})/.exec(line)?.[1]));
          const formatsOfComma = [{ ...format, commaSeconds: true }, format];
          formats.push(...(varied.size > 1 ? formatsOfComma : formatsOfComma.reverse()));
        } else formats.push(format);
      }
    }
  }
  return formats;
}

function tryFormat(
  format: Format,
  lines: readonly string[],
  data: readonly string[],
  options: LogOptions,
): Trial {
  const none = (why: string, share = 0): Trial => ({
    layout: null,
    why,
    isNear: false,
    share,
    isNamed: false,
    garbled: 0,
  });
  const isTable = format.separator !== " ";
  const rows = data.map((line) => scanRow(line, format));
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    if (row === null || !row.items.some((item) => item.kind === "number")) continue;
    const key = isTable
      ? String(row.cells.length)
      : row.items
          .map((item) => `${item.kind === "missing" ? "number" : item.kind}:${item.label}`)
          .join();
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  const [alike] = [...groups.values()].sort((a, b) => b.length - a.length);
  if (alike === undefined) return none("holds no readings; expected at least one number a line");
  // The cell of a flag at the end of a line is none where it is empty: the data may begin with such lines.
  const most = alike[0]!.cells.length;
  const first = isTable
    ? rows.findIndex(
        (row) =>
          row?.items.some(({ kind }) => kind === "number") &&
          row.cells.length <= most &&
          row.cells.length >= most - 2,
      )
    : rows.indexOf(alike[0]!);
  const above = lines.slice(0, lines.indexOf(data[first]!));
  const names = findNames(above, format, most / 2, alike[0]!);
  const width = isTable ? Math.max(names.written.length, most / 2) : 1;
  // Cells at the end of a line may be empty, and are none then.
  const main = isTable
    ? [...groups.values()].flat().filter((row) => row.cells.length <= 2 * width && row !== null)
    : alike;
  const share = main.length / (rows.length - first);
  if (names.why !== "") return none(names.why, share);
  const slots = new Set(main.flatMap((row) => row.slots));
  const columns = [...slots]
    .sort((a, b) => a - b)
    .flatMap((slot) => columnOf(slot, main, format, names));
  const found = chooseColumns(columns, names.written, width, format, options);
  if (typeof found === "string")
    return { ...none(found, share), isNamed: names.written.length > 0 };
  if (mayBeHalves(found.value, format, main)) {
    return none(
      `has lines such as "${main[0]!.text.trim().slice(0, 40)}", where a comma may be decimal or part two columns; put a line with the names of the columns above them, or semicolons between columns`,
      share,
    );
  }
  const trailing = mostFrequent(main.map((row) => row.trailing));
  const isSteady = main.filter((row) => row.trailing === trailing).length > 0.9 * main.length;
  const layout: Layout = {
    format,
    columns,
    width,
    pattern: isTable ? [] : patternOf(main),
    names: names.lines,
    trailing: isSteady ? trailing : null,
    ...found,
    form: formOf(main, found, format),
    flagCell: isTable ? names.written.findIndex((name) => columnKey(name) === "flag") : -1,
  };
  return {
    layout,
    why: "",
    isNear: isPlausible(found.value, found.quantity, options) || found.rate !== null,
    share,
    isNamed: names.written.length > 0,
    garbled: rows.filter((row) => row?.isGarbled ?? true).length / rows.length,
  };
}

/** In what form the readings of these lines are written. */
function formOf(rows: readonly Row[], { value, quantity }: Chosen, format: Format): NumberForm {
  const isFree = quantity === "rate" || quantity === "time_error_s";
  const form = new NumberForm(isFree ? Number.NaN : median(value.values));
  for (const row of rows) {
    const item = row.items[row.slots.indexOf(value.slot)];
    if (item?.kind !== "number") continue;
    numbers.read(row.text, item.from, item.to, format.decimal.charCodeAt(0), 0);
    form.learn(numbers);
  }
  return form;
}

/** Marks of a missing value stand for the numbers that other lines have there. */
function patternOf(rows: readonly Row[]): Item["kind"][] {
  return rows[0]!.items.map(({ kind }, i) => {
    const kinds = kind === "missing" ? rows.map((row) => row.items[i]!.kind) : [];
    return kinds.find((k) => k !== "missing") ?? kind;
  });
}

const numbers = new NumberReader();

/** What is known of a column; none where most of it is of no one kind. */
function columnOf(
  slot: number,
  rows: readonly Row[],
  format: Format,
  names: ReturnType<typeof findNames>,
): Column[] {
  const items = rows.flatMap((row) => {
    const at = row.slots.indexOf(slot);
    return at < 0 ? [] : [{ row, item: row.items[at]! }];
  });
  const counts = { number: 0, date: 0, time: 0, missing: 0 };
  for (const { item } of items) counts[item.kind]++;
  const kind = (["number", "date", "time"] as const).find(
    (k) => counts[k] > 0 && counts[k] + (k === "number" ? counts.missing : 0) >= 0.9 * items.length,
  );
  if (kind === undefined) return [];
  const isTable = format.separator !== " ";
  const cell = Math.floor(slot / slotsOfCell);
  const isFirst =
    !isTable ||
    slot % slotsOfCell === 0 ||
    items.every(
      ({ row }) => row.items.filter((i) => i.cell === cell && i.kind === "number").length === 1,
    );
  const at = isTable ? cell : slot;
  const written = isFirst ? (names.written[at] ?? "") : "";
  const labels = items.map(({ item }) => item.label);
  const label = mostFrequent(labels);
  const name = written === "" ? readColumnName(label) : readColumnName(written);
  const withUnit = names.units[at] ? { role: name.role, unit: names.units[at]! } : name;
  const withUnits = items.find(({ item }) => item.unit !== null)?.item.unit ?? null;
  const values = items.flatMap(({ row, item }) => {
    if (item.kind !== "number") return [];
    const of = item.unit ?? withUnit.unit;
    numbers.read(row.text, item.from, item.to, format.decimal.charCodeAt(0), of?.power ?? 0);
    return [numbers.value * (of?.factor ?? 1)];
  });
  return [
    {
      slot,
      kind,
      written,
      name: withUnit,
      label,
      unit: withUnits?.of ?? null,
      power: (withUnits ?? withUnit.unit)?.power ?? 0,
      // In few lines a summary weighs much: the first column and the stamps tell it from readings.
      isAlways: items.length >= (slot === 0 || kind !== "number" ? 0.5 : 0.9) * rows.length,
      values: Float64Array.from(values),
    },
  ];
}

function mostFrequent(words: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? "";
}

/** Whether what is read as whole numbers may be the front halves of numbers with decimal commas. */
function mayBeHalves(value: Column, format: Format, rows: readonly Row[]): boolean {
  if (format.separator !== "," || value.name.role !== null || value.unit !== null) return false;
  const next = 2 * (Math.floor(value.slot / slotsOfCell) + 1);
  return (
    value.values.every(Number.isInteger) &&
    rows.every(({ text, cells }) => /^\d+$/.test(text.slice(cells[next], cells[next + 1])))
  );
}
