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
  /** Time error of the start edge without jitter, oscillator noise included; s. Not for time intervals. */
  readonly startErrorOverRun: Float64Array;
  /** The same from deterministic causes alone; s. */
  readonly startSteadyError: Float64Array;
}

const names = [
  "start",
  "cycles",
  "interval",
  "error",
  "errorOverRun",
  "steadyError",
  "startErrorOverRun",
  "startSteadyError",
] as const;

/** Columns of which a group of readings keeps the first value; the others add up. */
const keepsFirst: readonly string[] = ["start", "startErrorOverRun", "startSteadyError"];

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
  private readonly columns: Record<(typeof names)[number], Float64Array>;
  private readonly most: number;
  private readonly isTimeError: boolean;
  private readonly isRelative: boolean;
  private readonly isBackToBack: boolean;

  /**
   * @param isTimeError - whether readings are time errors (technique `time_interval`)
   * @param isRelative - whether the truth is relative to the reference (it is the counter's time base)
   * @param isBackToBack - whether readings have no dead time between them
   * @param most - entries kept at most; even
   */
  constructor(isTimeError: boolean, isRelative: boolean, isBackToBack: boolean, most = 1 << 17) {
    this.isBackToBack = isBackToBack;
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
      startErrorOverRun: column(),
      startSteadyError: column(),
    };
  }

  /** Takes a reading. */
  add(reading: Reading): void {
    const { from, to, cycles, interval, timeError } = reading;
    const { isRelative } = this;
    const overRun = isRelative ? to.settingError : to.errorOverRun;
    const steady = isRelative ? to.settingError : to.steadyError;
    const start = reading.start.toSeconds();
    if (this.isTimeError) {
      this.put(start, cycles, interval, timeError, overRun, steady, 0, 0);
    } else {
      const overRunFrom = isRelative ? from.settingError : from.errorOverRun;
      const steadyFrom = isRelative ? from.settingError : from.steadyError;
      const gained = overRun - overRunFrom;
      this.put(
        start,
        cycles,
        interval,
        timeError,
        gained,
        steady - steadyFrom,
        overRunFrom,
        steadyFrom,
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
      startErrorOverRun: columns.startErrorOverRun.subarray(0, size),
      startSteadyError: columns.startSteadyError.subarray(0, size),
    };
  }

  private put(...entry: readonly number[]): void {
    if (this.pending === 0 || this.pending === this.joined) {
      if (this.size === this.most) {
        if (!this.isBackToBack && !this.isTimeError) {
          this.leftOut++;
          return;
        }
        this.joinPairs();
      }
      if (this.pending === 0 || this.pending === this.joined) {
        this.append(entry);
        return;
      }
    }
    this.pending++;
    if (this.isTimeError) return;
    const at = this.size - 1;
    for (let i = 0; i < names.length; i++) {
      const name = names[i]!;
      if (!keepsFirst.includes(name)) this.columns[name][at]! += entry[i]!;
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
      const isKept = this.isTimeError || keepsFirst.includes(name);
      for (let i = 0; i < this.size; i += 2) {
        column[i / 2] = isKept ? column[i]! : column[i]! + column[i + 1]!;
      }
    }
    this.size /= 2;
    this.joined *= 2;
    this.pending = this.joined;
  }
}
