import type { Sinks } from "../../chain/index.ts";
import { RandomStream } from "../../numeric/index.ts";
import type { LogParameters } from "../../scenario/index.ts";

type Reading = Parameters<NonNullable<Sinks["reading"]>>[0];

/** What was done to a log: lines of the file count from 1, readings from 0. */
export interface LogTruth {
  readonly lines: number;
  /** Readings without a line: lost, or without an edge in the gate. */
  readonly lost_readings: readonly number[];
  /** Lines that say the one before them once more. */
  readonly doubled_lines: readonly number[];
  /** Lines garbled, so that their readings cannot be read. */
  readonly junk_lines: readonly number[];
  /** The last line, where it breaks off; its reading cannot be read. */
  readonly cut_line: number | null;
}

/** Start of an invented day; ms since 1970. */
const start = Date.UTC(2001, 0, 1, 8);
/** A line as a bad cable leaves it. */
const garbled = (line: string, share: number) => {
  const at = 1 + Math.floor(share * (line.length - 2));
  return `\u00fe${line.slice(0, at)}#${line.slice(at)}`;
};

/**
 * Readings of a run as a bench would have written them, spoilt on purpose, by a random stream of its own.
 */
export class BenchLog {
  private readonly log: LogParameters;
  private readonly stream: RandomStream;
  private readonly write: (text: string) => void;
  private readonly lost: number[] = [];
  private readonly doubled: number[] = [];
  private readonly junk: number[] = [];
  private lines = 0;
  /** The line before, held back until it is known not to be the last. */
  private held: string | null = null;

  /**
   * @param log - how it is written and spoilt
   * @param seed - of the run
   * @param write - takes the text, piece by piece
   */
  constructor(log: LogParameters, seed: string, write: (text: string) => void) {
    this.log = log;
    this.stream = new RandomStream(seed, "log");
    this.write = write;
  }

  /** Takes the next reading. */
  take(reading: Reading): void {
    const { lostLineProbability, doubledLineProbability, junkLineProbability } = this.log;
    // Four draws a reading, whatever becomes of it: another probability moves no other line.
    const isLost = this.stream.uniform() < lostLineProbability;
    const isDoubled = this.stream.uniform() < doubledLineProbability;
    const isJunk = this.stream.uniform() < junkLineProbability;
    const share = this.stream.uniform();
    const line = this.lineOf(reading);
    if (isLost || line === null) {
      this.lost.push(reading.index);
      return;
    }
    const isGarbled = isJunk && this.lines > 0;
    this.put(isGarbled ? garbled(line, share) : line);
    if (isGarbled) this.junk.push(this.lines);
    if (isGarbled || !isDoubled) return;
    this.put(line);
    this.doubled.push(this.lines);
  }

  /**
   * Ends the log.
   *
   * @returns what was done to it
   */
  end(): LogTruth {
    const { held } = this;
    const isCut = held !== null && this.log.cutLastLine;
    if (held !== null) this.write(isCut ? held.slice(0, Math.ceil(held.length / 2)) : `${held}\n`);
    this.held = null;
    // Of a line that breaks off nothing else can be seen.
    const whole = (line: number) => !isCut || line < this.lines;
    return {
      lines: this.lines,
      lost_readings: this.lost,
      doubled_lines: this.doubled.filter(whole),
      junk_lines: this.junk.filter(whole),
      cut_line: isCut ? this.lines : null,
    };
  }

  private put(line: string): void {
    if (this.held !== null) this.write(`${this.held}\n`);
    this.held = line;
    this.lines += 1;
  }

  private lineOf({ cycles, interval, start: from }: Reading): string | null {
    const period = interval / cycles;
    if (!Number.isFinite(period)) return null;
    const { format, digits } = this.log;
    if (format === "frequency") return `${(1 / period).toPrecision(digits)} Hz`;
    const value = `${period.toPrecision(digits)} s`;
    return format === "period"
      ? value
      : `${this.stampAt(from.whole + from.fraction + interval)}\t${value}`;
  }

  private stampAt(end: number): string {
    const { stampDelay, stampResolution } = this.log;
    const seconds = Math.floor((end + stampDelay) / stampResolution) * stampResolution;
    const text = new Date(start + Math.round(seconds * 1000)).toISOString();
    return stampResolution < 1 ? text : text.replace(/\.\d+/, "");
  }
}
