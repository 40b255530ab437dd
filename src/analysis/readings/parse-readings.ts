import { median } from "../../numeric/index.ts";
import { type ChosenColumn, chooseColumn, type Quantity, there } from "./choose-column.ts";
import { stampedDeadTime, usualBreak } from "./dead-time.ts";
import { columnKey, findColumns } from "./find-columns.ts";
import { InputError } from "./input-error.ts";
import { type NumberColumns, readColumns } from "./read-columns.ts";
import type { Readings } from "./readings.ts";
import { roundingError } from "./rounding-error.ts";
import { splitRows } from "./split-rows.ts";
import { evenGrid, type Grid } from "./time-stamps.ts";

/** What is said about a text of readings beside the text. */
export interface ParseOptions {
  /** Name of the file or stream, for messages. */
  readonly file: string;
  /** Column that holds the readings; its name, or its number from 1. */
  readonly column?: string;
  /** Nominal period; s, > 0. */
  readonly nominalPeriod?: number;
  /** Length of a reading; s, > 0. For time errors their spacing. */
  readonly gate?: number;
  /** Whether each reading begins at the last edge of the one before. */
  readonly backToBack?: boolean;
  /** Dead time between readings; s, >= 0; 0 = back to back. */
  readonly deadTime?: number;
  /** Column that holds the temperature in °C. */
  readonly temperature?: string;
}

/** Readings made out of a text. */
export interface ParsedReadings {
  readonly readings: Readings;
  readonly quantity: Quantity;
  /** Temperature at each reading, °C, NaN where missing; null without such a column. */
  readonly temperature: Float64Array | null;
  /** Line of each reading, 0 for one that a gap in the time stamps shows to be missing. */
  readonly line: Int32Array;
  /** Share of the readings that a column `flag` says were taken while the clock went by itself; 0 without one. */
  readonly fallback: number;
  /** What was assumed because nothing said it. */
  readonly notes: readonly string[];
}

/**
 * Reads a record from a text: CSV with a column of period_s, frequency_hz, time_error_s or rate, or one number
 * a line. Semicolons, tabs, blanks, decimal commas, blank and comment lines, titles and a byte-order mark are
 * coped with; missing values and holes between time stamps become gaps (NaN).
 *
 * @param text - the text
 * @param options - what is said beside it
 * @returns the record, or
 * @throws InputError with the line, what is wrong there and what would be right; nothing else
 *
 * Exact case: "period_s\n1.5\n" with nominalPeriod 1.5 is one reading of rate 0.
 */
export function parseReadings(text: string, options: ParseOptions): ParsedReadings {
  const { file } = options;
  const rows = splitRows(text, file);
  const columns = findColumns(rows, file);
  const nameLine = rows.line[Math.max(0, columns.firstRow - 1)]!;
  const chosen = chooseColumn(columns, options.column, file, nameLine);
  const warm = options.temperature;
  const temperature = warm === undefined ? null : columns.keys.indexOf(columnKey(warm));
  if (temperature !== null && temperature < 0) {
    throw new InputError(
      file,
      nameLine,
      `has no column "${warm}" with a temperature; ${there(columns)}`,
    );
  }
  // Beside periods or frequencies, rates tell what the nominal period is.
  const needsRate = options.nominalPeriod === undefined;
  const found = readColumns(rows, columns, chosen.index, temperature, needsRate, file);
  if (found.value.every(Number.isNaN)) {
    throw new InputError(file, null, "holds no readings: every value is missing");
  }
  const notes: string[] = [];
  const quantity = chosen.quantity ?? guessQuantity(chosen, found, options, notes);
  const grid = gridOf(found, quantity, file, notes);
  const record = { found, quantity, grid, options, notes };
  return {
    readings: quantity === "time_error_s" ? timeErrors(record) : periods(record),
    quantity,
    temperature: found.temperature && onGrid(found.temperature, grid, Number.NaN),
    line: onGrid(found.line, grid, 0),
    fallback: shareOf(found.fallback, found.value),
    notes,
  };
}

/** Share of the values that are marked. */
function shareOf(marks: Float64Array | null, values: Float64Array): number {
  if (marks === null) return 0;
  let present = 0;
  let marked = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]!)) continue;
    present++;
    marked += marks[i]!;
  }
  return marked / present;
}

interface FoundRecord {
  readonly found: NumberColumns;
  readonly quantity: Quantity;
  readonly grid: Grid | null;
  readonly options: ParseOptions;
  readonly notes: string[];
}

/** Values close to the nominal period or frequency tell which they are, unless they fit both. */
function guessQuantity(
  chosen: ChosenColumn,
  found: NumberColumns,
  { file, nominalPeriod, column }: ParseOptions,
  notes: string[],
): Quantity {
  const usual = median(found.value);
  const near = (value: number) => Math.abs(usual / value - 1) < 0.1;
  if (nominalPeriod !== undefined) {
    const isPeriod = near(nominalPeriod);
    const isFrequency = near(1 / nominalPeriod);
    if (isPeriod && !isFrequency) return "period_s";
    if (isFrequency && !isPeriod) return "frequency_hz";
    if (isPeriod) {
      notes.push(
        "the readings are taken as periods in s; name the column frequency_hz if they are frequencies",
      );
      return "period_s";
    }
  }
  throw new InputError(
    file,
    found.line[0]!,
    `does not say what ${column === undefined ? `column ${chosen.index + 1}` : `"${column}"`} holds, and ${usual} does not show it; put a line with one of period_s, frequency_hz, time_error_s, rate above the numbers${nominalPeriod === undefined ? ", or give --nominal-period" : ""}`,
  );
}

function gridOf(
  found: NumberColumns,
  quantity: Quantity,
  file: string,
  notes: string[],
): Grid | null {
  if (found.time === null) return null;
  const grid = evenGrid(found.time, found.timeResolution, found.line, file);
  // A single stamp, or none beside another, tells no spacing.
  if (Number.isNaN(grid.spacing)) return null;
  if (grid.uneven < 0.3) return grid;
  if (quantity === "time_error_s") {
    throw new InputError(
      file,
      found.line[0]!,
      "time errors are not evenly spaced by their time stamps; expected one spacing, with gaps of whole spacings",
    );
  }
  notes.push("the time stamps are not evenly spaced, so that gaps cannot be told from them");
  return null;
}

function timeErrors({ found, grid, options, notes }: FoundRecord): Readings {
  const spacing = grid?.spacing ?? options.gate;
  if (spacing === undefined) {
    throw new InputError(
      options.file,
      null,
      "does not say how far apart its time errors are; give --gate, or a column with time stamps",
    );
  }
  if (options.gate !== undefined && Math.abs(options.gate / spacing - 1) > 0.01) {
    notes.push(`the time stamps are ${spacing} s apart, not the ${options.gate} s said`);
  }
  return {
    kind: "time_error",
    timeError: onGrid(found.value, grid, Number.NaN),
    spacing,
    ...(options.nominalPeriod === undefined ? {} : { nominalPeriod: options.nominalPeriod }),
  };
}

function periods(record: FoundRecord): Readings {
  const { found, quantity, grid, options } = record;
  const nominalPeriod = nominalOf(record);
  const period = found.value.map((value, i) => {
    if (Number.isNaN(value)) return Number.NaN;
    if (quantity === "rate" ? value > -1 : value > 0) {
      if (quantity === "period_s") return value;
      return quantity === "rate" ? nominalPeriod / (1 + value) : 1 / value;
    }
    const right = quantity === "rate" ? "above -1" : "above 0";
    throw new InputError(
      options.file,
      found.line[i]!,
      `${value} is no ${quantity}; expected one ${right}`,
    );
  });
  const off = median(period) / nominalPeriod;
  if (!(off > 0.9 && off < 1.1)) {
    throw new InputError(
      options.file,
      found.line[0]!,
      `readings as ${quantity} give a period of ${median(period)} s, far from the nominal ${nominalPeriod} s; expected one within a tenth of it (is it the wrong column, unit, or --nominal-period?)`,
    );
  }
  const cycles = cyclesOf(record, period, nominalPeriod);
  const length = period.map((p, i) => p * cycles[i]!);
  const backToBack = backToBackOf(record, length, median(period));
  const start = found.isStart ? found.time : null;
  const deadTime = deadTimeOf(record, length, backToBack);
  const rounding = backToBack ? roundingOf(record, length) : 0;
  return {
    kind: "period",
    period: onGrid(period, grid, Number.NaN),
    cycles: onGrid(cycles, grid, Number.NaN),
    start: start && onGrid(start, grid, Number.NaN),
    nominalPeriod,
    backToBack,
    ...(deadTime === undefined ? {} : { deadTime }),
    ...(rounding > leastRounding ? { rounding } : {}),
  };
}

/** Below it a double has no digits to tell it by. */
const leastRounding = 1e-15;

/** Of the digits written; none where the first edges show that the readings add up to the time between them. */
function roundingOf({ found, quantity }: FoundRecord, length: Float64Array): number {
  const { value, time, isStart } = found;
  const last = value.length - 1;
  // A step of a rate is one of 1 + rate.
  const error = roundingError(quantity === "rate" ? value.map((r) => 1 + r) : value);
  if (time === null || !isStart || last < 1) return error;
  let off = 0;
  for (let i = 0; i < last; i++) off += length[i]! - (time[i + 1]! - time[i]!);
  return Math.abs(off) < error * length[0]! ? 0 : error;
}

/** By the first edges, else by time stamps of another clock, else what is said beside the file. */
function deadTimeOf(
  { found, grid, options, notes }: FoundRecord,
  length: Float64Array,
  backToBack: boolean,
): number | undefined {
  const said = backToBack ? 0 : options.deadTime;
  if (found.time === null || length.length < 2) return said;
  if (found.isStart) {
    if (backToBack) return 0;
    const left = usualBreak(found.time, length);
    // The counter waits for an edge when its dead time is over: what it says is the least.
    return left >= 0 ? Math.max(left, said ?? 0) : said;
  }
  if (grid === null) return said;
  const { deadTime, note } = stampedDeadTime(grid, median(length), said);
  if (note !== "") notes.push(note);
  return deadTime;
}

/** Said beside the file, or by two columns of it; a record of rates needs none. */
function nominalOf(record: FoundRecord): number {
  const { found, quantity, options } = record;
  if (options.nominalPeriod !== undefined) return options.nominalPeriod;
  const { rate, value } = found;
  if (quantity === "rate") return options.gate ?? leftBetween(record) ?? 1;
  if (rate !== null) {
    const nominal = median(
      value.map((v, i) => (quantity === "period_s" ? v * (1 + rate[i]!) : (1 + rate[i]!) / v)),
    );
    // The digits of both columns end somewhere: give back the round number they came from.
    const round = Number(nominal.toPrecision(12));
    if (nominal > 0) return Math.abs(round / nominal - 1) < 1e-12 ? round : nominal;
  }
  throw new InputError(
    options.file,
    null,
    `does not say what the nominal period is; give --nominal-period, in s (the readings are about ${Number((quantity === "period_s" ? median(value) : 1 / median(value)).toPrecision(8))} s)`,
  );
}

/** What the dead time said leaves of the spacing of the time stamps; s; undefined where they tell none. */
function leftBetween({ grid, options }: FoundRecord): number | undefined {
  if (grid === null) return undefined;
  const left = grid.spacing - (options.deadTime ?? 0);
  return left > 0 ? left : grid.spacing;
}

function cyclesOf(record: FoundRecord, period: Float64Array, nominalPeriod: number): Float64Array {
  const { found, options, notes } = record;
  const { cycles, line } = found;
  if (cycles !== null) {
    return cycles.map((c, i) => {
      if (Number.isNaN(period[i]!)) return Number.NaN;
      if (c > 0) return c;
      throw new InputError(
        options.file,
        line[i]!,
        `${c} cycles make no reading; expected one or more`,
      );
    });
  }
  const isNext = options.backToBack === true || options.deadTime !== undefined;
  const gate = options.gate ?? (isNext ? leftBetween(record) : undefined);
  if (gate === undefined)
    notes.push("each reading is taken as one period long; give --gate if it is longer");
  const count = Math.max(1, Math.round((gate ?? 0) / nominalPeriod));
  return period.map((p) => (Number.isNaN(p) ? Number.NaN : count));
}

/** Said beside the file, or shown by its first edges; else the more careful assumption is dead time. */
function backToBackOf(
  { found, grid, options, notes }: FoundRecord,
  length: Float64Array,
  usualPeriod: number,
): boolean {
  if (options.deadTime !== undefined) return options.deadTime === 0;
  if (options.backToBack !== undefined) return options.backToBack;
  if (found.isStart && found.time !== null && length.length > 1) {
    return Math.abs(usualBreak(found.time, length)) < 1e-6 * usualPeriod;
  }
  // Time stamps have notes of their own to make.
  if (grid === null && length.length > 1) {
    notes.push(
      "nothing says that the readings are back to back, so dead time is assumed; give --back-to-back if there is none",
    );
  }
  return false;
}

function onGrid<T extends Float64Array | Int32Array>(
  values: T,
  grid: Grid | null,
  fill: number,
): T {
  if (grid === null || grid.length === values.length) return values;
  const spread = values.slice(0, 0).constructor as new (length: number) => T;
  const out = new spread(grid.length);
  out.fill(fill);
  for (let i = 0; i < values.length; i++) out[grid.place[i]!] = values[i]!;
  return out;
}
