import type { Sinks } from "../chain/sinks.ts";
import type { Reading } from "../counter/reading.ts";
import { burstOutcomes, burstsColumns } from "../table/bursts-columns.ts";
import type { Column } from "../table/column.ts";
import { csvHeader } from "../table/csv.ts";
import { flagLabels } from "../table/flag-words.ts";
import { type BulkColumn, numericRows } from "../table/numeric-rows.ts";
import { periodReadingsColumns, timeIntervalReadingsColumns } from "../table/readings-columns.ts";
import { tickSources, ticksColumns } from "../table/ticks-columns.ts";
import type { TextSink } from "./text-sink.ts";

/** Rows written at a time. */
const rowsAtOnce = 4096;

/** Gathers rows of a table in blocks and writes them. */
class RowWriter {
  readonly numbers: readonly Float64Array[];
  readonly codes = new Uint8Array(rowsAtOnce);
  rows = 0;
  private size = 0;
  private readonly sink: TextSink;
  private readonly columns: readonly BulkColumn[];

  /**
   * @param columns - of the table; the last one holds words
   * @param labels - the words, by code
   * @param optional - places of the columns in which NaN is an empty cell
   */
  constructor(
    sink: TextSink,
    columns: readonly Column[],
    labels: readonly string[],
    optional: readonly number[],
  ) {
    this.sink = sink;
    this.numbers = columns.slice(0, -1).map(() => new Float64Array(rowsAtOnce));
    this.columns = [
      ...this.numbers.map((column, i) => (optional.includes(i) ? { optional: column } : column)),
      { codes: this.codes, labels },
    ];
    sink.write(csvHeader(columns));
  }

  /** Index of the row to be filled next; full blocks are written first. */
  next(): number {
    if (this.size === rowsAtOnce) this.flush();
    this.rows++;
    return this.size++;
  }

  flush(): void {
    if (this.size > 0) this.sink.write(numericRows(this.columns, 0, this.size));
    this.size = 0;
  }
}

/** Writers of the tables of a run, and the sinks that feed them. */
export interface RunWriters {
  readonly sinks: Sinks;
  /** Rows written of each table so far. */
  counts(): Record<string, number>;
  /** Writes what is still gathered. */
  flush(): void;
}

/** Columns of readings.csv for a technique. */
export function readingsColumns(isTimeInterval: boolean): readonly Column[] {
  return isTimeInterval ? timeIntervalReadingsColumns : periodReadingsColumns;
}

/**
 * Makes the writers of a run's tables.
 *
 * @param readings - where readings.csv goes
 * @param ticks - where ticks.csv goes, or null
 * @param bursts - where bursts.csv goes, or null
 * @param period - nominal period of a cycle; s
 * @param isTimeInterval - whether readings are time errors
 * @param digits - significant digits the counter shows, or null for all
 */
export function runWriters(
  readings: TextSink,
  ticks: TextSink | null,
  bursts: TextSink | null,
  period: number,
  isTimeInterval: boolean,
  digits: number | null,
): RunWriters {
  const readingRows = new RowWriter(
    readings,
    readingsColumns(isTimeInterval),
    flagLabels,
    [2, 3, 4, 5],
  );
  const shown = (value: number) => (digits === null ? value : Number(value.toPrecision(digits)));
  const putInterval = (reading: Reading) => {
    const i = readingRows.next();
    const [index, start, error] = readingRows.numbers;
    index![i] = reading.index;
    start![i] = reading.start.toSeconds();
    error![i] = shown(reading.timeError);
    readingRows.codes[i] = reading.marks;
  };
  const putPeriod = (reading: Reading) => {
    const i = readingRows.next();
    const { cycles, interval } = reading;
    const [index, start, counted, meanPeriod, frequency, rate] = readingRows.numbers;
    index![i] = reading.index;
    start![i] = reading.start.toSeconds();
    counted![i] = cycles;
    meanPeriod![i] = shown(interval / cycles);
    frequency![i] = shown(cycles / interval);
    rate![i] = (cycles * period - interval) / interval;
    readingRows.codes[i] = reading.marks;
  };
  const sinks: { -readonly [K in keyof Sinks]: Sinks[K] } = {
    reading: isTimeInterval ? putInterval : putPeriod,
  };
  const tickRows = ticks && new RowWriter(ticks, ticksColumns, tickSources, []);
  if (tickRows) {
    const [number, error] = tickRows.numbers;
    sinks.tick = (tick, timeError, edge) => {
      const i = tickRows.next();
      number![i] = tick;
      error![i] = timeError;
      tickRows.codes[i] = edge.isFallback ? 1 : 0;
    };
  }
  const burstRows = bursts && new RowWriter(bursts, burstsColumns, burstOutcomes, [2]);
  if (burstRows) {
    const [number, error, delays] = burstRows.numbers;
    sinks.burst = (burst, startError, delay, outcome) => {
      const i = burstRows.next();
      number![i] = burst;
      error![i] = startError;
      delays![i] = delay;
      burstRows.codes[i] = outcome;
    };
  }
  return {
    sinks,
    counts: () => ({
      readings: readingRows.rows,
      ...(tickRows ? { ticks: tickRows.rows } : {}),
      ...(burstRows ? { bursts: burstRows.rows } : {}),
    }),
    flush() {
      readingRows.flush();
      tickRows?.flush();
      burstRows?.flush();
    },
  };
}
