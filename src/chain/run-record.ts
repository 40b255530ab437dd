import type { Scenario } from "../scenario/index.ts";
import type { Reading } from "../stages/counter/index.ts";

/** Columns of a record of readings, one entry a reading (or a group of readings joined). */
export interface RecordColumns {
  /** Counter time of the start; s. */
  readonly start: Float64Array;
  /** Cycles counted. */
  readonly cycles: Float64Array;
  /** Counter time they took; s, NaN where no edge fell into the gate. */
  readonly interval: Float64Array;
  /** Time error gained over the reading: cycles·T − interval; or, for time intervals, the time error itself; s. */
  readonly error: Float64Array;
  /** The same of edges without jitter and counter error, oscillator noise included; s. */
  readonly errorOverRun: Float64Array;
  /** The same from deterministic causes alone; s. */
  readonly steadyError: Float64Array;
  /** Time error of the start edge without jitter, oscillator noise included; s. Not for time intervals. */
  readonly startErrorOverRun: Float64Array;
  /** The same from deterministic causes alone; s. */
  readonly startSteadyError: Float64Array;
}

/** Numbers of the columns in memory; those from `firstKept` on keep the first value of a group, the others add up. */
const cycles = 0;
const interval = 1;
const error = 2;
const errorOverRun = 3;
const steadyError = 4;
const start = 5;
const startErrorOverRun = 6;
const startSteadyError = 7;
const firstKept = start;
const width = 8;

/** What sort of readings a record is to keep. */
export interface ReadingKind {
  /** Whether readings are time errors (technique `time_interval`). */
  readonly isTimeError: boolean;
  /** Whether the truth is relative to the reference (it is the counter's time base). */
  readonly isRelative: boolean;
  /** Whether readings have no dead time between them. */
  readonly isBackToBack: boolean;
}

/**
 * Keeps the readings of a run for the estimators, with the truth beside them, in bounded memory.
 *
 * Beyond `most` readings neighbours are joined in pairs: their cycles, intervals and errors add up, so that
 * mean and end-to-end rate stay exactly what they were and the line is fitted to fewer stamps. Time errors
 * are thinned instead. Readings with dead time cannot be joined: those beyond `most` are left out.
 */
export class RunRecord {
  /** How many readings stand in one entry. */
  joined = 1;
  /** Readings that found no room. */
  leftOut = 0;
  private size = 0;
  private pending = 0;
  private readonly columns: Float64Array[];
  /** The reading at hand, by column. */
  private readonly entry = new Float64Array(width);
  private readonly most: number;
  private readonly kind: ReadingKind;

  /**
   * @param kind - what sort of readings it is to keep
   * @param most - entries kept at most; even, >= 2
   * @throws RangeError if `most` is no even number >= 2
   */
  constructor(kind: ReadingKind, most = 1 << 17) {
    if (!(most >= 2 && most % 2 === 0)) {
      throw new RangeError(`RunRecord: most must be an even number >= 2, got ${most}`);
    }
    this.kind = kind;
    this.most = most;
    this.columns = Array.from({ length: width }, () => new Float64Array(Math.min(most, 1024)));
  }

  /**
   * A record for the readings of a scenario's counter.
   *
   * @param scenario - the scenario
   * @param most - entries kept at most; even, >= 2
   * @throws RangeError if `most` is no even number >= 2
   */
  static of({ counter }: Scenario, most?: number): RunRecord {
    const kind = {
      isTimeError: counter.technique === "time_interval",
      isRelative: counter.timebase === "reference",
      isBackToBack: counter.deadTime === 0,
    };
    return new RunRecord(kind, most);
  }

  /** Takes a reading. */
  add(reading: Reading): void {
    const { from, to } = reading;
    const { entry } = this;
    const { isRelative, isTimeError } = this.kind;
    const overRun = isRelative ? to.settingError : to.errorOverRun;
    const steady = isRelative ? to.settingError : to.steadyError;
    const overRunFrom = isRelative ? from.settingError : from.errorOverRun;
    const steadyFrom = isRelative ? from.settingError : from.steadyError;
    entry[start] = reading.start.toSeconds();
    entry[cycles] = reading.cycles;
    entry[interval] = reading.interval;
    entry[error] = reading.timeError;
    entry[errorOverRun] = isTimeError ? overRun : overRun - overRunFrom;
    entry[steadyError] = isTimeError ? steady : steady - steadyFrom;
    entry[startErrorOverRun] = isTimeError ? 0 : overRunFrom;
    entry[startSteadyError] = isTimeError ? 0 : steadyFrom;
    this.put();
  }

  /** What was recorded; only whole groups where readings were joined. */
  read(): RecordColumns {
    const size = this.pending > 0 && this.pending < this.joined ? this.size - 1 : this.size;
    const column = (number: number) => this.columns[number]!.subarray(0, size);
    return {
      start: column(start),
      cycles: column(cycles),
      interval: column(interval),
      error: column(error),
      errorOverRun: column(errorOverRun),
      steadyError: column(steadyError),
      startErrorOverRun: column(startErrorOverRun),
      startSteadyError: column(startSteadyError),
    };
  }

  private put(): void {
    if (this.pending === 0 || this.pending === this.joined) {
      if (this.size === this.most) {
        if (!this.kind.isBackToBack && !this.kind.isTimeError) {
          this.leftOut++;
          return;
        }
        this.joinPairs();
      }
      if (this.pending === 0 || this.pending === this.joined) {
        this.append();
        return;
      }
    }
    this.pending++;
    if (this.kind.isTimeError) return;
    const at = this.size - 1;
    for (let i = 0; i < firstKept; i++) this.columns[i]![at]! += this.entry[i]!;
  }

  private append(): void {
    if (this.size === this.columns[start]!.length) this.grow();
    for (let i = 0; i < width; i++) this.columns[i]![this.size] = this.entry[i]!;
    this.size++;
    this.pending = 1;
  }

  private grow(): void {
    this.columns.forEach((column, i) => {
      const larger = new Float64Array(Math.min(this.most, 2 * column.length));
      larger.set(column);
      this.columns[i] = larger;
    });
  }

  private joinPairs(): void {
    this.columns.forEach((column, number) => {
      const isKept = this.kind.isTimeError || number >= firstKept;
      for (let i = 0; i < this.size; i += 2) {
        column[i / 2] = isKept ? column[i]! : column[i]! + column[i + 1]!;
      }
    });
    this.size /= 2;
    this.joined *= 2;
    this.pending = this.joined;
  }
}
