import { InputError } from "./input-error.ts";
import { readNumber } from "./read-number.ts";

const iso =
  /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?\s*(Z|[+-]\d{2}(?::?\d{2})?)?)?$/i;

/**
 * Seconds of a time stamp: ISO 8601 (without a zone taken as UTC), a day number, or seconds.
 *
 * @param field - text of the field
 * @param unit - what a plain number counts
 * @param decimalComma - whether a comma stands for the decimal point
 * @returns seconds from a fixed origin (days: from the fraction of the day and the whole day apart, so that
 *   nothing is lost but what the digits lack); NaN where missing; null if it is no time stamp
 *
 * Source: ISO 8601-1; proleptic Gregorian calendar. Exact case: 1970-01-01T00:01:00Z is 60.
 */
export function readTimeStamp(
  field: string,
  unit: "s" | "d",
  decimalComma: boolean,
): number | null {
  const text = field.trim();
  const match = iso.exec(text);
  if (match === null) {
    const value = readNumber(text, decimalComma);
    return value === null || unit === "s" ? value : value * 86400;
  }
  const [, year, month, day, hour, minute, second, zone] = match;
  const midnight = Date.UTC(Number(year), Number(month) - 1, Number(day)) / 1000;
  const date = new Date(midnight * 1000);
  const time = [Number(hour ?? 0), Number(minute ?? 0), Number((second ?? "0").replace(",", "."))];
  if (date.getUTCMonth() + 1 !== Number(month) || date.getUTCDate() !== Number(day)) return null;
  if (time[0]! > 24 || time[1]! > 59 || time[2]! >= 61) return null;
  return midnight + time[0]! * 3600 + time[1]! * 60 + time[2]! - zoneSeconds(zone);
}

function zoneSeconds(zone: string | undefined): number {
  if (zone === undefined || zone.toUpperCase() === "Z") return 0;
  const digits = zone.slice(1).replace(":", "");
  const minutes = Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2) || 0);
  return (zone.startsWith("-") ? -1 : 1) * minutes * 60;
}

/** Spacing of a record and the place of each of its rows on an even grid. */
export interface Grid {
  /** Usual spacing; s, > 0. */
  readonly spacing: number;
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
 * @param time - time of each row; K >= 1 values, s; NaN where missing (one usual spacing is taken)
 * @param line - line of each row
 * @param file - name of the file, for messages
 * @returns the grid
 * @throws InputError if time does not go on, or the gaps would make the record a hundred times longer
 */
export function evenGrid(time: Float64Array, line: Int32Array, file: string): Grid {
  const steps = time.slice(1).map((t, i) => t - time[i]!);
  const known = steps.filter((s) => !Number.isNaN(s)).sort();
  const spacing = known[(known.length - 1) >> 1] ?? Number.NaN;
  const place = new Int32Array(time.length);
  let uneven = 0;
  for (let i = 0; i < steps.length; i++) {
    const step = steps[i]!;
    if (step <= 0) {
      throw new InputError(
        file,
        line[i + 1]!,
        "the time stamp is not later than the one before; readings must stand in the order they were taken",
      );
    }
    const count = Number.isNaN(step) ? 1 : step / spacing;
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
  return { spacing, place, length: (place[place.length - 1] ?? -1) + 1, uneven };
}
