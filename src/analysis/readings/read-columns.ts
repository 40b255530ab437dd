import { type Columns, isMoment } from "./find-columns.ts";
import { InputError } from "./input-error.ts";
import { isMissing } from "./read-number.ts";
import type { Fields, Rows } from "./rows.ts";
import { StampReader, stampUnits } from "./time-stamps.ts";

/** Columns of numbers, row by row; NaN where a value is missing. */
export interface NumberColumns {
  readonly value: Float64Array;
  readonly cycles: Float64Array | null;
  readonly rate: Float64Array | null;
  readonly temperature: Float64Array | null;
  /** Time stamps from the first one on; s. */
  readonly time: Float64Array | null;
  /** Finest step that the time stamps are written in; s, > 0; NaN without any, and for first edges. */
  readonly timeResolution: number;
  /** Whether they are those of the first edges, by the counter. */
  readonly isStart: boolean;
  readonly line: Int32Array;
  /** 1 where a column `flag` has the word fallback, else 0; null without such a column. */
  readonly fallback: Float64Array | null;
}

/**
 * Reads the numbers of the columns that matter.
 *
 * @param rows - of the text
 * @param columns - where the data begin
 * @param index - column of the readings
 * @param temperature - column of the temperature, or null
 * @param needsRate - whether a column of rates beside the readings is to be read
 * @param file - name of the file, for messages
 * @returns the columns
 * @throws InputError for the first field that is neither a number nor missing, and the first row of another width
 */
export function readColumns(
  rows: Rows,
  columns: Columns,
  index: number,
  temperature: number | null,
  needsRate: boolean,
  file: string,
): NumberColumns {
  const first = columns.firstRow;
  const line = rows.line.subarray(first);
  const wanted: Column[] = [];
  const want = (i: number, complain: Complaint, read: Reader = asNumber): Float64Array => {
    const values = new Float64Array(line.length);
    wanted.push({ index: i, values, read, complain });
    return values;
  };
  const complainOf = (i: number) => (field: string) =>
    notANumber(field, columns.names[i] ?? `column ${i + 1}`, rows.decimalComma);
  const numbers = (i: number) => want(i, complainOf(i));
  const optional = (key: string) => {
    const i = columns.keys.indexOf(key);
    return i >= 0 && i !== index ? numbers(i) : null;
  };
  const stamp = stampColumn(columns, rows.at(first), index);
  const found = {
    value: numbers(index),
    cycles: optional("cycles"),
    rate: needsRate ? optional("rate") : null,
    temperature: temperature === null ? null : numbers(temperature),
    isStart: stamp >= 0 && columns.keys[stamp] === "start_s",
    line,
  };
  if (stamp >= 0) refuseTimeApart(rows.at(first), stamp, line[0]!, file);
  const stamps = new StampReader(stampUnits[columns.keys[stamp] ?? ""] ?? 1);
  // The stamps of first edges are the counter's own numbers, with all the digits there are.
  const readStamp: Reader = found.isStart
    ? asNumber
    : (fields, i) => stamps.read(fields.text(i), fields.number(i));
  const time = stamp < 0 ? null : want(stamp, noStamp, readStamp);
  const flag = columns.keys.indexOf("flag");
  const fallback = flag < 0 || flag === index ? null : want(flag, noStamp, isFallback);
  for (let r = 0; r < line.length; r++)
    readRow(rows.at(first + r), r, columns.width, wanted, line, file);
  return {
    ...found,
    fallback,
    time: time && fromFirst(time),
    timeResolution: time === null || found.isStart ? Number.NaN : stamps.resolution,
  };
}

/** The column that tells when: by its name, else the first that holds a date and a time of day; -1 without one. */
function stampColumn({ keys }: Columns, data: Fields, readings: number): number {
  const named = keys.findIndex((key, i) => i !== readings && key in stampUnits);
  if (named >= 0) return named;
  for (let i = 0; i < data.count; i++) {
    if (i !== readings && isMoment(data.text(i))) return i;
  }
  return -1;
}

/** A date alone would pass for the whole stamp, and days for the spacing, where the time of day stands beside it. */
function refuseTimeApart(fields: Fields, stamp: number, line: number, file: string): void {
  const date = fields.text(stamp).trim();
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date)) return;
  for (let i = 0; i < fields.count; i++) {
    const time = fields.text(i).trim();
    if (!/^\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?$/.test(time)) continue;
    const joined = `${date}T${time.replace(/^(?=\d:)/, "0")}`;
    throw new InputError(
      file,
      line,
      `keeps the date "${date}" and the time "${time}" in two columns; join them in one, as in ${joined}`,
    );
  }
}

type Reader = (fields: Fields, i: number) => number | null;
type Complaint = (field: string) => string;

/** A column that is read, and what is said of a field that cannot be. */
interface Column {
  readonly index: number;
  readonly values: Float64Array;
  readonly read: Reader;
  readonly complain: Complaint;
}

/** Never null: any text may stand in a flag. */
const isFallback: Reader = (fields, i) => (/\bfallback\b/.test(fields.text(i)) ? 1 : 0);

const asNumber: Reader = (fields, i) => fields.number(i);

function readRow(
  fields: Fields,
  r: number,
  width: number,
  wanted: readonly Column[],
  line: Int32Array,
  file: string,
): void {
  if (fields.count !== width) {
    throw new InputError(
      file,
      line[r]!,
      `has ${fields.count} field${fields.count === 1 ? "" : "s"} where the first line of data has ${width}; every line needs the same columns (a decimal comma needs another delimiter)`,
    );
  }
  for (const { index, values, read, complain } of wanted) {
    const value = read(fields, index);
    if (value === null) throw new InputError(file, line[r]!, complain(fields.text(index)));
    values[r] = value;
  }
}

/** The origin does not matter, but digits do: seconds from the first stamp; null where there is none. */
function fromFirst(time: Float64Array): Float64Array | null {
  const origin = time.find((t) => !Number.isNaN(t));
  return origin === undefined ? null : time.map((t) => t - origin);
}

const noStamp: Complaint = (field) =>
  `"${field.trim().slice(0, 40)}" is no time stamp; expected ISO 8601 such as 2031-05-04T12:00:00Z, or a number`;

function notANumber(field: string, name: string, decimalComma: boolean): string {
  const shown = `"${field.trim().slice(0, 40)}" in ${name} is not a number`;
  if (isMissing(field)) return shown;
  if (/\d,\d/.test(field) && !decimalComma) return `${shown}; expected a decimal point`;
  if (/\d\.\d/.test(field) && decimalComma) {
    return `${shown} where other lines have decimal commas; expected one kind throughout`;
  }
  return `${shown}; expected one such as 1.0000012 or 3e-9, or an empty field where it is missing`;
}
