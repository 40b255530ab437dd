import type { Columns } from "./find-columns.ts";
import { InputError } from "./input-error.ts";
import { isMissing, readNumber } from "./read-number.ts";
import type { Rows } from "./split-rows.ts";
import { readTimeStamp } from "./time-stamps.ts";

/** Time stamps that a text may have: what a plain number counts, by the name of its column. */
const stampUnits: Readonly<Record<string, "s" | "d">> = {
  start_s: "s",
  time_s: "s",
  t_s: "s",
  timestamp: "s",
  time: "s",
  datetime: "s",
  date: "d",
  mjd: "d",
  jd: "d",
  day: "d",
  day_number: "d",
};

/** Columns of numbers, row by row; NaN where a value is missing. */
export interface NumberColumns {
  readonly value: Float64Array;
  readonly cycles: Float64Array | null;
  readonly rate: Float64Array | null;
  readonly temperature: Float64Array | null;
  /** Time stamps; s. */
  readonly time: Float64Array | null;
  /** Whether they are those of the first edges, by the counter. */
  readonly isStart: boolean;
  readonly line: Int32Array;
}

/**
 * Reads the numbers of the columns that matter.
 *
 * @param rows - of the text
 * @param columns - where the data begin
 * @param index - column of the readings
 * @param temperature - column of the temperature, or null
 * @param file - name of the file, for messages
 * @returns the columns
 * @throws InputError for the first field that is neither a number nor missing, and the first row of another width
 */
export function readColumns(
  rows: Rows,
  columns: Columns,
  index: number,
  temperature: number | null,
  file: string,
): NumberColumns {
  const first = columns.firstRow;
  const length = rows.fields.length - first;
  const line = rows.line.subarray(first);
  checkWidths(rows, columns, file);
  const named = (i: number) => columns.names[i] ?? `column ${i + 1}`;
  const numbers = (i: number) => {
    const values = new Float64Array(length);
    for (let r = 0; r < length; r++) {
      const field = rows.fields[first + r]![i]!;
      const value = readNumber(field, rows.decimalComma);
      if (value === null) {
        throw new InputError(file, line[r]!, notANumber(field, named(i), rows.decimalComma));
      }
      values[r] = value;
    }
    return values;
  };
  const optional = (key: string) => {
    const i = columns.keys.indexOf(key);
    return i >= 0 && i !== index ? numbers(i) : null;
  };
  const stamp = columns.keys.findIndex((key, i) => i !== index && key in stampUnits);
  return {
    value: numbers(index),
    cycles: optional("cycles"),
    rate: optional("rate"),
    temperature: temperature === null ? null : numbers(temperature),
    time: stamp < 0 ? null : timeStamps(rows, first, stamp, columns.keys[stamp]!, file),
    isStart: stamp >= 0 && columns.keys[stamp] === "start_s",
    line,
  };
}

function checkWidths(rows: Rows, columns: Columns, file: string): void {
  for (let r = columns.firstRow; r < rows.fields.length; r++) {
    const width = rows.fields[r]!.length;
    if (width === columns.width) continue;
    throw new InputError(
      file,
      rows.line[r]!,
      `has ${width} field${width === 1 ? "" : "s"} where the first line of data has ${columns.width}; every line needs the same columns (a decimal comma needs another delimiter)`,
    );
  }
}

function timeStamps(
  rows: Rows,
  first: number,
  index: number,
  key: string,
  file: string,
): Float64Array | null {
  const length = rows.fields.length - first;
  const values = new Float64Array(length);
  for (let r = 0; r < length; r++) {
    const field = rows.fields[first + r]![index]!;
    const value = readTimeStamp(field, stampUnits[key]!, rows.decimalComma);
    if (value === null) {
      throw new InputError(
        file,
        rows.line[first + r]!,
        `"${field.trim().slice(0, 40)}" is no time stamp; expected ISO 8601 such as 2031-05-04T12:00:00Z, or a number`,
      );
    }
    values[r] = value;
  }
  // The origin does not matter, but digits do: count from the first one.
  const origin = values.find((v) => !Number.isNaN(v));
  return origin === undefined ? null : values.map((v) => v - origin);
}

function notANumber(field: string, name: string, decimalComma: boolean): string {
  const shown = `"${field.trim().slice(0, 40)}" in ${name} is not a number`;
  if (isMissing(field)) return shown;
  if (/\d,\d/.test(field) && !decimalComma) return `${shown}; expected a decimal point`;
  if (/\d\.\d/.test(field) && decimalComma) {
    return `${shown} where other lines have decimal commas; expected one kind throughout`;
  }
  return `${shown}; expected one such as 1.0000012 or 3e-9, or an empty field where it is missing`;
}
