import { median } from "../numeric/index.ts";
import { type ColumnName, columnKey, type Quantity, readColumnName } from "./column-name.ts";
import { findNames } from "./find-names.ts";
import type { Item } from "./line-scanner.ts";
import type { LogOptions } from "./log-options.ts";
import { nearNominal } from "./nominal.ts";
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
  const rank = (t: Trial) =>
    (t.layout === null ? 0 : 8) + (t.isNear ? 4 : 0) + t.share * 2 + (t.isNamed ? 1 : 0);
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
  // A digit group that begins with 0 is no number of its own.
  const groups =
    has(/\d \d{3}(?=\D|$)/) && has(/\d[.,]?\d* 0\d\d(?=\D|$)/) ? [true, false] : [false];
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
  const first = rows.indexOf(alike[0]!);
  const above = lines.slice(0, lines.indexOf(data[first]!));
  const names = findNames(above, format, alike[0]!.cells.length / 2, alike[0]!);
  const width = isTable ? Math.max(names.written.length, alike[0]!.cells.length / 2) : 1;
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
    pattern: patternOf(main),
    names: names.lines,
    trailing: isSteady ? trailing : null,
    ...found,
    flagCell: isTable ? names.written.findIndex((name) => columnKey(name) === "flag") : -1,
  };
  const isNear = isPlausible(found.value, found.quantity, options);
  return {
    layout,
    why: "",
    isNear: isNear || found.rate !== null,
    share,
    isNamed: names.written.length > 0,
  };
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

type Chosen = Pick<
  Layout,
  | "value"
  | "quantity"
  | "power"
  | "isAssumed"
  | "date"
  | "time"
  | "stamp"
  | "temperature"
  | "cycles"
  | "rate"
>;

/** Which column is which; or why that cannot be told. */
function chooseColumns(
  columns: readonly Column[],
  names: readonly string[],
  width: number,
  format: Format,
  options: LogOptions,
): Chosen | string {
  const isTable = format.separator !== " ";
  const there = inWords(columns, names, isTable ? width : columns.length);
  const byName = (wanted: string): Column | undefined => {
    const key = columnKey(wanted);
    const place = names.findIndex((name) => columnKey(name) === key);
    const number = place >= 0 ? place : Number(wanted) - 1;
    const start = isTable ? number * slotsOfCell : number;
    return (
      columns.find(
        (c) =>
          c.kind === "number" && c.slot >= start && c.slot < start + (isTable ? slotsOfCell : 1),
      ) ?? columns.find((c) => c.label === key && c.kind === "number")
    );
  };
  let value: Column | undefined;
  let said: Quantity | null = null;
  if (options.column !== undefined) {
    value = byName(options.column);
    // One of the four names says what the only column holds.
    if (value === undefined && columns.length === 1 && names.length === 0) {
      said = quantityOf(readColumnName(options.column).role);
      if (said !== null) value = columns[0];
    }
    if (value === undefined) return `has no column "${options.column}"; ${there}`;
  } else value = findValue(columns, options);
  if (value === undefined) {
    return `does not say which column holds the readings; name one of period_s, frequency_hz, time_error_s, rate, or give --column; ${there}`;
  }
  const of = (role: ColumnName["role"]) =>
    columns.find((c) => c !== value && c.name.role === role) ?? null;
  const written = value.unit ?? value.name.unit?.of ?? null;
  const byUnit = { time: "period_s", frequency: "frequency_hz", ratio: "rate" } as const;
  const named = said ?? quantityOf(value.name.role);
  const byWritten =
    written === null
      ? null
      : written in byUnit
        ? byUnit[written as keyof typeof byUnit]
        : undefined;
  if (
    byWritten === undefined ||
    (named === "frequency_hz" && written === "time") ||
    (named === "period_s" && written === "frequency")
  ) {
    return `has readings in another unit than ${named === null ? "s or Hz" : `a ${named} has`}; ${there}`;
  }
  const quantity = named ?? byWritten ?? (options.isFrequency ? "frequency_hz" : "period_s");
  const date = columns.find((c) => c.kind === "date") ?? null;
  const time = columns.find((c) => c.kind === "time") ?? null;
  const start = of("start");
  const isCalendar =
    start === null && (time !== null || (date !== null && of("stamp")?.kind !== "number"));
  const warm = options.temperature === undefined ? undefined : byName(options.temperature);
  if (options.temperature !== undefined && warm === undefined) {
    return `has no column "${options.temperature}" with a temperature; ${there}`;
  }
  return {
    value,
    quantity,
    power: value.power,
    isAssumed: named === null && byWritten === null,
    date: isCalendar ? date : null,
    time: isCalendar ? time : null,
    stamp: isCalendar
      ? null
      : (start ?? columns.find((c) => c !== value && isStampColumn(c)) ?? null),
    temperature: warm ?? of("temperature") ?? columns.find((c) => c.unit === "temperature") ?? null,
    cycles: of("cycles"),
    rate: of("rate"),
  };
}

/** The column of the readings: by its name, by the unit of its numbers, by their size. */
function findValue(columns: readonly Column[], options: LogOptions): Column | undefined {
  const all = columns.filter((c) => c.kind === "number" && c.values.length > 0);
  for (const role of ["period_s", "frequency_hz", "time_error_s", "rate"]) {
    const named = all.filter((c) => c.name.role === role);
    const always = named.find((c) => c.values.length > 0);
    if (always !== undefined) return always;
  }
  const isReading = ({ unit, name }: Column) => {
    const of = unit ?? name.unit?.of ?? null;
    return (
      name.role === null && (of === null || of === "time" || of === "frequency" || of === "ratio")
    );
  };
  const free = all.filter(isReading);
  const near = (of: readonly Column[]) =>
    of.filter((c) =>
      isPlausible(
        c,
        unitQuantity(c) ?? (options.isFrequency ? "frequency_hz" : "period_s"),
        options,
      ),
    );
  const withUnit = free.filter((c) => unitQuantity(c) !== null);
  for (const group of [withUnit, free]) {
    if (group.length === 1) return group[0];
    const close = near(group);
    if (close.length === 1) return close[0];
    if (close.length > 1 && group === withUnit) return undefined;
  }
  // A time of the only numbers there are is a period.
  return free.length === 0 && all.length === 1 && all[0]!.name.role === "stamp"
    ? all[0]
    : undefined;
}

const unitQuantity = ({ unit, name }: Column): Quantity | null => {
  const of = unit ?? name.unit?.of;
  return of === "time" ? "period_s" : of === "frequency" ? "frequency_hz" : null;
};

const quantityOf = (role: ColumnName["role"]): Quantity | null =>
  role === "period_s" || role === "frequency_hz" || role === "time_error_s" || role === "rate"
    ? role
    : null;

/** Whether numbers have the size that the nominal period gives them; rates and time errors may have any. */
function isPlausible(
  { values }: Column,
  quantity: Quantity,
  { nominalPeriod }: LogOptions,
): boolean {
  if (quantity === "rate" || quantity === "time_error_s") return true;
  const usual = median(values);
  return nearNominal(quantity === "frequency_hz" ? 1 / usual : usual, nominalPeriod) !== null;
}

/** Numbers that go on by steps may tell when; an index that counts the lines does not. */
function isStampColumn({ kind, name, values, unit }: Column): boolean {
  if (kind !== "number") return false;
  if (name.role === "stamp") return true;
  if (name.role !== null || (unit !== null && unit !== "time") || values.length < 3) return false;
  let isIndex = true;
  for (let i = 1; i < values.length; i++) {
    if (!(values[i]! > values[i - 1]!)) return false;
    if (values[i]! - values[i - 1]! !== 1) isIndex = false;
  }
  return !isIndex || values[0]! > 1e8;
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

function inWords(columns: readonly Column[], names: readonly string[], width: number): string {
  if (names.length > 0)
    return `it has ${names
      .slice(0, 20)
      .map((n) => `"${n}"`)
      .join(", ")}`;
  const labels = columns.filter((c) => c.label !== "").map((c) => `"${c.label}"`);
  const count = `it has ${width} column${width === 1 ? "" : "s"} without names`;
  return labels.length > 0 ? `${count}, labelled ${labels.join(", ")}` : count;
}
