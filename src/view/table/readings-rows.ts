import type { Sinks } from "../../chain/index.ts";
import type { Column } from "./column.ts";
import { flagLabels } from "./flag-words.ts";
import { periodReadingsColumns, timeIntervalReadingsColumns } from "./readings-columns.ts";
import { RowWriter } from "./row-writer.ts";

type ReadingSink = NonNullable<Sinks["reading"]>;

/**
 * Columns of readings.csv.
 *
 * @param isTimeInterval - whether readings are time errors
 * @returns the columns, in their order in the file
 */
export function readingsColumns(isTimeInterval: boolean): readonly Column[] {
  return isTimeInterval ? timeIntervalReadingsColumns : periodReadingsColumns;
}

/** What takes the readings of a run and writes them. */
export interface ReadingsRows {
  readonly take: ReadingSink;
  /** Rows so far. */
  readonly count: () => number;
  /** Writes what is still gathered. */
  readonly flush: () => void;
}

/**
 * Readings of a run as the text of readings.csv.
 *
 * @param write - takes the text, piece by piece
 * @param isTimeInterval - whether readings are time errors
 * @param digits - significant digits the counter shows, or null for all
 * @returns a sink of readings, and a flush for the end
 */
export function readingsRows(
  write: (text: string) => void,
  isTimeInterval: boolean,
  digits: number | null,
): ReadingsRows {
  const rows = new RowWriter(write, readingsColumns(isTimeInterval), flagLabels, [2, 3, 4, 5]);
  const shown = (value: number) => (digits === null ? value : Number(value.toPrecision(digits)));
  const putInterval: ReadingSink = (reading) => {
    const i = rows.next();
    const [index, start, error] = rows.numbers;
    index![i] = reading.index;
    start![i] = reading.start.toSeconds();
    error![i] = shown(reading.timeError);
    rows.codes[i] = reading.marks;
  };
  const putPeriod: ReadingSink = (reading) => {
    const i = rows.next();
    const { cycles, interval, timeError } = reading;
    const [index, start, counted, meanPeriod, frequency, rate] = rows.numbers;
    index![i] = reading.index;
    start![i] = reading.start.toSeconds();
    counted![i] = cycles;
    meanPeriod![i] = shown(interval / cycles);
    frequency![i] = shown(cycles / interval);
    rate![i] = timeError / interval;
    rows.codes[i] = reading.marks;
  };
  return {
    take: isTimeInterval ? putInterval : putPeriod,
    count: () => rows.rows,
    flush: () => rows.flush(),
  };
}
