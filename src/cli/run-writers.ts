import type { Sinks } from "../chain/index.ts";
import {
  burstOutcomes,
  burstsColumns,
  RowWriter,
  readingsRows,
  tickSources,
  ticksColumns,
} from "../view/table/index.ts";
import type { TextSink } from "./text-sink.ts";

export { readingsColumns } from "../view/table/index.ts";

/** Writers of the tables of a run, and the sinks that feed them. */
export interface RunWriters {
  readonly sinks: Sinks;
  /** Rows written of each table so far. */
  counts(): Record<string, number>;
  /** Writes what is still gathered. */
  flush(): void;
}

/**
 * Makes the writers of a run's tables.
 *
 * @param readings - where readings.csv goes
 * @param ticks - where ticks.csv goes, or null
 * @param bursts - where bursts.csv goes, or null
 * @param isTimeInterval - whether readings are time errors
 * @param digits - significant digits the counter shows, or null for all
 */
export function runWriters(
  readings: TextSink,
  ticks: TextSink | null,
  bursts: TextSink | null,
  isTimeInterval: boolean,
  digits: number | null,
): RunWriters {
  const into = (sink: TextSink) => (text: string) => sink.write(text);
  const readingRows = readingsRows(into(readings), isTimeInterval, digits);
  const sinks: { -readonly [K in keyof Sinks]: Sinks[K] } = { reading: readingRows.take };
  const tickRows = ticks && new RowWriter(into(ticks), ticksColumns, tickSources, []);
  if (tickRows) {
    const [number, error] = tickRows.numbers;
    sinks.tick = (tick, timeError, edge) => {
      const i = tickRows.next();
      number![i] = tick;
      error![i] = timeError;
      tickRows.codes[i] = edge.isFallback ? 1 : 0;
    };
  }
  const burstRows = bursts && new RowWriter(into(bursts), burstsColumns, burstOutcomes, [2]);
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
      readings: readingRows.count(),
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
