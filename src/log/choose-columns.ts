import { median } from "../numeric/index.ts";
import { type ColumnName, columnKey, type Quantity, readColumnName } from "./column-name.ts";
import type { Column, Layout } from "./detect-layout.ts";
import type { LogOptions } from "./log-options.ts";
import { nearNominal } from "./nominal.ts";
import { type Format, slotsOfCell } from "./scan-row.ts";

/** Which column is which. */
export type Chosen = Pick<
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

/**
 * Tells which column is which.
 *
 * @param columns - of the log
 * @param names - as written above them
 * @param width - cells of a line
 * @param format - how the log is written
 * @param options - what is said beside it
 * @returns the columns, or why they cannot be told
 */
export function chooseColumns(
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
      ) ?? columns.find((c) => key !== "" && c.label === key && c.kind === "number")
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
  } else value = findValue(columns, names, options);
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
  const told = start ?? of("stamp");
  const isCalendar = told === null ? date !== null || time !== null : told.kind !== "number";
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
function findValue(
  columns: readonly Column[],
  names: readonly string[],
  options: LogOptions,
): Column | undefined {
  const all = columns.filter((c) => c.kind === "number" && c.values.length > 0);
  for (const role of ["period_s", "frequency_hz", "time_error_s", "rate"]) {
    const named = all.find((c) => c.name.role === role);
    if (named !== undefined) return named;
  }
  // Of a column that is named but empty no other takes the place.
  if (names.some((name) => quantityOf(readColumnName(name).role) !== null)) return undefined;
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

/** The quantity of a role; null for one that is no reading. */
export const quantityOf = (role: ColumnName["role"]): Quantity | null =>
  role === "period_s" || role === "frequency_hz" || role === "time_error_s" || role === "rate"
    ? role
    : null;

/**
 * Whether numbers have the size that the nominal period gives them; rates and time errors may have any.
 *
 * @param column - the numbers
 * @param quantity - what they are
 * @param options - the nominal period, where it is said
 */
export function isPlausible(
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
