import type { Reading } from "../counter/reading.ts";

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
}

const names = ["start", "cycles", "interval", "error", "errorOverRun", "steadyError"] as const;

/**
 * Keeps the readings of a run for the estimators, with the truth beside them, in bounded memory.
 *
 * Beyond `most` readings neighbours are joined in pairs: their cycles, intervals and errors add up, so that
 * mean and end-to-end rate stay exactly what they were and the line is fitted to fewer stamps. Time errors
 * are thinned instead.
 */
export class RunRecord {
  /** How many readings stand in one entry. */
  joined = 1;
  private size = 0;
  private pending = 0;
  private readonly columns: Record<(typeof names)[number], Float64Array>;
  private readonly most: number;
  private readonly period: number;
  private readonly isTimeError: boolean;
  private readonly isRelative: boolean;

  /**
   * @param period - nominal period of a cycle; s
   * @param isTimeError - whether readings are time errors (technique `time_interval`)
   * @param isRelative - whether the truth is relative to the reference (it is the counter's time base)
   * @param most - entries kept at most; even
   */
  constructor(period: number, isTimeError: boolean, isRelative: boolean, most = 1 << 17) {
    this.period = period;
    this.isTimeError = isTimeError;
    this.isRelative = isRelative;
    this.most = most;
    const column = () => new Float64Array(Math.min(most, 1024));
    this.columns = {
      start: column(),
      cycles: column(),
      interval: column(),
      error: column(),
      errorOverRun: column(),
      steadyError: column(),
    };
  }

  /** Takes a reading. */
  add(reading: Reading): void {
    const { from, to } = reading;
    const overRun = this.isRelative ? to.settingError : to.errorOverRun;
    const steady = this.isRelative ? to.settingError : to.steadyError;
    if (this.isTimeError) {
      this.put(
        reading.start.toSeconds(),
        reading.cycles,
        reading.interval,
        reading.timeError,
        overRun,
        steady,
      );
    } else {
      this.put(
        reading.start.toSeconds(),
        reading.cycles,
        reading.interval,
        reading.cycles * this.period - reading.interval,
        overRun - (this.isRelative ? from.settingError : from.errorOverRun),
        steady - (this.isRelative ? from.settingError : from.steadyError),
      );
    }
  }

  /** What was recorded; only whole groups where readings were joined. */
  read(): RecordColumns {
    const size = this.pending > 0 && this.pending < this.joined ? this.size - 1 : this.size;
    const { columns } = this;
    return {
      start: columns.start.subarray(0, size),
      cycles: columns.cycles.subarray(0, size),
      interval: columns.interval.subarray(0, size),
      error: columns.error.subarray(0, size),
      errorOverRun: columns.errorOverRun.subarray(0, size),
      steadyError: columns.steadyError.subarray(0, size),
    };
  }

  private put(...entry: [number, number, number, number, number, number]): void {
    if (this.pending === 0 || this.pending === this.joined) {
      if (this.size === this.most) this.joinPairs();
      if (this.pending === 0 || this.pending === this.joined) {
        this.append(entry);
        return;
      }
    }
    this.pending++;
    if (this.isTimeError) return;
    const at = this.size - 1;
    for (let i = 1; i < names.length; i++) {
      const column = this.columns[names[i]!];
      column[at] = column[at]! + entry[i]!;
    }
  }

  private append(entry: readonly number[]): void {
    if (this.size === this.columns.start.length) this.grow();
    names.forEach((name, i) => {
      this.columns[name][this.size] = entry[i]!;
    });
    this.size++;
    this.pending = 1;
  }

  private grow(): void {
    for (const name of names) {
      const larger = new Float64Array(Math.min(this.most, 2 * this.columns[name].length));
      larger.set(this.columns[name]);
      this.columns[name] = larger;
    }
  }

  private joinPairs(): void {
    for (const name of names) {
      const column = this.columns[name];
      const isKept = name === "start" || this.isTimeError;
      for (let i = 0; i < this.size; i += 2) {
        column[i / 2] = isKept ? column[i]! : column[i]! + column[i + 1]!;
      }
    }
    this.size /= 2;
    this.joined *= 2;
    this.pending = this.joined;
  }
}
