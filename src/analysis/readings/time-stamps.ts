import { pow, present, select } from "../../numeric/index.ts";
import { InputError } from "./input-error.ts";

const iso =
  /^(\d{4}-\d{2}-\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?\s*(Z|[+-]\d{2}(?::?\d{2})?)?)?$/i;
/** Sign, whole part, decimals and power of ten of a number. */
const digits = /^\s*([-+]?)(\d*)(?:[.,](\d*))?(?:e([-+]?\d+))?\s*$/i;
const secondsPerDay = 86400;
/** Plain seconds from which on a double rounds them visibly. */
const roundedFrom = 1e8;

/** Time stamps that a text may have: what a plain number counts, in s, by the name of its column. */
export const stampUnits: Readonly<Record<string, number>> = {
  start_s: 1,
  time_s: 1,
  t_s: 1,
  timestamp: 1,
  time: 1,
  datetime: 1,
  date: secondsPerDay,
  mjd: secondsPerDay,
  jd: secondsPerDay,
  day: secondsPerDay,
  day_number: secondsPerDay,
};

/**
 * Reads time stamps: ISO 8601 (without a zone taken as UTC), day numbers, or seconds.
 *
 * Whole days (whole seconds of large numbers) are counted from those of the first stamp and the fraction is read
 * apart, so that nothing is lost but what the digits lack: the double nearest to a day number is out by up to
 * half a microsecond. Leap seconds that are stamped (23:59:60 before the first of a month, UTC) make every later
 * calendar stamp a second later each; those that no stamp shows are not known.
 *
 * Source: ISO 8601-1; proleptic Gregorian calendar; ITU-R TF.460-6 for leap seconds. Exact case: of 1970-01-01T00:01:00Z and 1970-01-02 the second is
 * 86340 s after the first.
 */
export class StampReader {
  readonly #unit: number;
  /** Seconds of a whole part left out of every stamp. */
  #origin = Number.NaN;
  #finest = Number.POSITIVE_INFINITY;
  #midnight = { date: "", seconds: Number.NaN };
  /** Leap seconds stamped so far, and the end of the day of the last. */
  #leaps = 0;
  #lastLeap = Number.NEGATIVE_INFINITY;

  /** @param unit - what a plain number counts; s */
  constructor(unit: number) {
    this.#unit = unit;
  }

  /** Finest step that the stamps read so far are written in; s; Infinity if there was none. */
  get resolution(): number {
    return this.#finest;
  }

  /**
   * Reads one stamp.
   *
   * @param field - as written
   * @param value - the field as a number: NaN where it is missing, null where it is none
   * @returns seconds from an origin common to all stamps; NaN where missing; null if it is no time stamp
   */
  read(field: string, value: number | null): number | null {
    if (value === null) return this.#calendar(field.trim());
    if (Number.isNaN(value)) return value;
    const [, sign, whole, decimals = "", power = "0"] = digits.exec(field) ?? [];
    const step = this.#unit * pow(10, Number(power) - decimals.length);
    this.#finest = Math.min(this.#finest, step);
    const isLarge = this.#unit !== 1 || Math.abs(value) >= roundedFrom;
    if (!isLarge || whole === undefined || power !== "0") return this.#from(0, value * this.#unit);
    const signed = sign === "-" ? -this.#unit : this.#unit;
    return this.#from(signed * Number(whole), signed * Number(`0.${decimals}`));
  }

  #calendar(text: string): number | null {
    const match = iso.exec(text);
    if (match === null) return null;
    const [, date, hour, minute, second = "0", zone] = match;
    const time = [
      Number(hour ?? 0),
      Number(minute ?? 0),
      Number(second.replace(",", ".")),
    ] as const;
    // 24:00 is the end of a day, and nothing comes after it (ISO 8601).
    const hours = time[0] + (time[1] + time[2] > 0 ? 1 : 0);
    if (hours > 24 || time[1] > 59 || time[2] >= 61) return null;
    if (date !== this.#midnight.date) {
      const seconds = midnightOf(date!);
      if (seconds === null) return null;
      this.#midnight = { date: date!, seconds };
    }
    const decimals = second.length > 2 ? second.length - 3 : 0;
    const step =
      hour === undefined ? secondsPerDay : match[4] === undefined ? 60 : pow(10, -decimals);
    this.#finest = Math.min(this.#finest, step);
    const ofDay = time[0] * 3600 + time[1] * 60 + time[2] - zoneSeconds(zone);
    const leaps = this.#leapsBefore(this.#midnight.seconds + ofDay, time[2] >= 60);
    return this.#from(this.#midnight.seconds, ofDay + leaps);
  }

  /** Leap seconds over before a time, counted from the stamps read so far; `isLeap` where it may lie in one itself. */
  #leapsBefore(time: number, isLeap: boolean): number {
    const second = Math.floor(time);
    const isWithin = isLeap && isFirstOfMonth(second);
    if (isWithin && second !== this.#lastLeap) {
      this.#leaps++;
      this.#lastLeap = second;
    }
    return this.#leaps - (isWithin || time < this.#lastLeap ? 1 : 0);
  }

  #from(whole: number, rest: number): number {
    if (Number.isNaN(this.#origin)) this.#origin = whole;
    return whole - this.#origin + rest;
  }
}

/** Seconds from 1970 to the start of a calendar day; null if there is no such day. */
function midnightOf(date: string): number | null {
  const [year, month, day] = date.split("-").map(Number) as [number, number, number];
  const at = new Date(Date.UTC(year, month - 1, day));
  const isDay = at.getUTCMonth() + 1 === month && at.getUTCDate() === day;
  return isDay ? at.getTime() / 1000 : null;
}

/** Whether a month begins at a time; s from 1970, UTC. */
function isFirstOfMonth(seconds: number): boolean {
  return seconds % secondsPerDay === 0 && new Date(1000 * seconds).getUTCDate() === 1;
}

function zoneSeconds(zone: string | undefined): number {
  if (zone === undefined || zone.toUpperCase() === "Z") return 0;
  const digits = zone.slice(1).replace(":", "");
  const minutes = Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2) || 0);
  return (zone.startsWith("-") ? -1 : 1) * minutes * 60;
}

/** Spacing of a record and the place of each of its rows on an even grid. */
export interface Grid {
  /** Usual spacing: the mean of those steps that span no gap; s, > 0. */
  readonly spacing: number;
  /** How far the rounding of the stamps may have shifted it; s; NaN where that is not known. */
  readonly bound: number;
  /** Place of each row, ascending from 0. */
  readonly place: Int32Array;
  /** Places in all. */
  readonly length: number;
  /** Largest departure from the grid, as a share of the spacing. */
  readonly uneven: number;
}

/**
 * Even grid that time stamps lie on; what is left free on it is a gap.
 *
 * Stamps that are rounded to whole seconds step unevenly (10, 10, 11 s) and have a median far from their mean, so
 * the mean is the spacing, unless both are the same but for the rounding of doubles.
 *
 * @param time - time of each row; K >= 1 values, s; NaN where missing (one usual spacing is taken)
 * @param resolution - step in which the stamps are written; s, >= 0, NaN where not known
 * @param line - line of each row
 * @param file - name of the file, for messages
 * @returns the grid
 * @throws InputError if time does not go on, or the gaps would make the record a hundred times longer
 */
export function evenGrid(
  time: Float64Array,
  resolution: number,
  line: Int32Array,
  file: string,
): Grid {
  const steps = new Float64Array(time.length - 1);
  for (let i = 0; i < steps.length; i++) {
    steps[i] = time[i + 1]! - time[i]!;
    if (!(steps[i]! <= 0)) continue;
    throw new InputError(
      file,
      line[i + 1]!,
      "the time stamp is not later than the one before; readings must stand in the order they were taken",
    );
  }
  const { spacing, bound } = usualStep(steps, resolution);
  const place = new Int32Array(time.length);
  let uneven = 0;
  for (let i = 0; i < steps.length; i++) {
    const count = Number.isNaN(steps[i]!) ? 1 : steps[i]! / spacing;
    const whole = Math.max(1, Math.round(count));
    uneven = Math.max(uneven, Math.abs(count - whole));
    const next = place[i]! + whole;
    if (next > 100 * time.length + 1000) {
      throw new InputError(
        file,
        line[i + 1]!,
        `the time stamp lies ${Math.round(count)} spacings after the one before; expected a record that is mostly there`,
      );
    }
    place[i + 1] = next;
  }
  const length = (place[place.length - 1] ?? -1) + 1;
  return { spacing, bound, place, length, uneven };
}

/** The mean of the steps that are near their median, and how far rounded stamps may shift it. */
function usualStep(steps: Float64Array, resolution: number): { spacing: number; bound: number } {
  const known = present(steps);
  if (known.length === 0) return { spacing: Number.NaN, bound: Number.NaN };
  const usual = select(known, (known.length - 1) >> 1);
  let sum = 0;
  let single = 0;
  let runs = 0;
  let isRun = false;
  for (let i = 0; i < steps.length; i++) {
    const isSingle = steps[i]! > 0.5 * usual && steps[i]! < 1.5 * usual;
    if (isSingle) {
      sum += steps[i]!;
      single++;
      if (!isRun) runs++;
    }
    isRun = isSingle;
  }
  // Within a run of such steps only its two ends are left in the sum.
  const mean = sum / single;
  return {
    spacing: Math.abs(mean / usual - 1) < 1e-9 ? usual : mean,
    bound: (runs * resolution) / single,
  };
}
