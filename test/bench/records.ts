import {
  modifiedAllanDeviation,
  mtieAt,
  octaveFactors,
  overlappingAllanDeviation,
} from "../../src/analysis/index.ts";
import { Simulator } from "../../src/kernel/index.ts";
import { LogReader } from "../../src/log/index.ts";
import { Instant, RandomStream } from "../../src/numeric/index.ts";
import { RowWriter, tickSources, ticksColumns } from "../../src/view/table/index.ts";

/** A record of white and random-walk time error; s. */
export function record(points: number): Float64Array {
  const stream = new RandomStream("bench", "record");
  const x = new Float64Array(points);
  let walk = 0;
  for (let i = 0; i < points; i++) {
    walk += 1e-7 * stream.normal();
    x[i] = walk + 5e-4 * stream.normal();
  }
  return x;
}

/** Overlapping Allan deviation at all octaves. */
export function allan(x: Float64Array): number {
  for (const m of octaveFactors(Math.floor((x.length - 1) / 2) - 1))
    overlappingAllanDeviation(x, 1, m);
  return 1;
}

/** Modified Allan deviation at all octaves. */
export function modifiedAllan(x: Float64Array): number {
  for (const m of octaveFactors(Math.floor(x.length / 3) - 1)) modifiedAllanDeviation(x, 1, m);
  return 1;
}

/** MTIE at all octaves. */
export function mtie(x: Float64Array): number {
  mtieAt(x, octaveFactors(x.length - 1));
  return 1;
}

/** Writes the record as rows of ticks.csv, into nothing. */
export function writeRows(x: Float64Array): number {
  let bytes = 0;
  const writer = new RowWriter(
    (text) => {
      bytes += text.length;
    },
    ticksColumns,
    tickSources,
    [],
  );
  const [numbers, errors] = writer.numbers;
  for (let i = 0; i < x.length; i++) {
    const row = writer.next();
    numbers![row] = i;
    errors![row] = x[i]!;
    writer.codes[row] = 0;
  }
  writer.flush();
  return bytes > 0 ? x.length : 0;
}

/** A log of readings: bare numbers, or a table with dates, times and temperatures. */
export function logOf(lines: number, isTable: boolean): Uint8Array {
  const stream = new RandomStream("bench", "log");
  const rows = Array.from({ length: lines }, (_, i) => {
    const period = (1 + 1e-5 * stream.normal()).toFixed(9);
    const time = new Date(1e12 + 1e3 * i).toISOString();
    return isTable ? `${time},${period},${(21 + stream.uniform()).toFixed(2)}\n` : `${period}\n`;
  });
  return new TextEncoder().encode((isTable ? "time,period_s,temp_c\n" : "") + rows.join(""));
}

/** Reads a log in pieces of 1 MB, as from a file. */
export function readPieces(bytes: Uint8Array): number {
  const reader = new LogReader({ file: "bench", nominalPeriod: 1 });
  for (let from = 0; from < bytes.length; from += 1 << 20)
    reader.add(bytes.subarray(from, from + (1 << 20)));
  return reader.end().readings.line!.length;
}

/** Events that schedule one another in the kernel: a hundred in the queue at any time. */
export function events(count: number): number {
  const simulator = new Simulator();
  const stream = new RandomStream("bench", "events");
  const at = new Instant();
  let left = count;
  const again = () => {
    if (left-- <= 0) return;
    at.copy(simulator.now);
    at.add(stream.uniform());
    simulator.schedule(at, 0, again);
  };
  for (let i = 0; i < 100; i++) again();
  simulator.run();
  return count;
}
