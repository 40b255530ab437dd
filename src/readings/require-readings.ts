import type { PeriodReadings, Readings, TimeErrorReadings } from "./readings.ts";

/**
 * Refuses a record that is none: columns that do not go together, values that no counter shows.
 *
 * @param caller - name of the function that was called, for the message
 * @param readings - the record; NaN stands for a missing reading and is none of these
 * @throws RangeError if a column is shorter or longer than the readings, a value present is outside the range that
 *   `Readings` says, or every reading is missing
 */
export function requireReadings(caller: string, readings: Readings): void {
  const refuse: Refuse = (what) => {
    throw new RangeError(`${caller}: ${what}`);
  };
  if (readings.kind === "period") requirePeriods(readings, refuse);
  else requireTimeErrors(readings, refuse);
}

type Refuse = (what: string) => never;

function requirePeriods(readings: PeriodReadings, refuse: Refuse): void {
  const { period, cycles, start, nominalPeriod, deadTime } = readings;
  if (!isPositive(nominalPeriod)) refuse(`nominalPeriod must be > 0 s, got ${nominalPeriod}`);
  if (deadTime !== undefined && !(deadTime >= 0 && deadTime < Number.POSITIVE_INFINITY)) {
    refuse(`deadTime must be >= 0 s, got ${deadTime}`);
  }
  for (const [name, column] of [
    ["cycles", cycles],
    ["start", start],
  ] as const) {
    if (column !== null && column.length !== period.length) {
      refuse(`${name} must hold a value a reading: ${period.length}, got ${column.length}`);
    }
  }
  let present = 0;
  for (let i = 0; i < period.length; i++) {
    if (Number.isNaN(period[i]!)) continue;
    present++;
    if (!isPositive(period[i]!)) refuse(`period[${i}] must be > 0 s or NaN, got ${period[i]}`);
    if (!isPositive(cycles[i]!)) refuse(`cycles[${i}] must be > 0, got ${cycles[i]}`);
    if (start !== null && Math.abs(start[i]!) === Number.POSITIVE_INFINITY) {
      refuse(`start[${i}] must be finite or NaN, got ${start[i]}`);
    }
  }
  if (present === 0) refuse("readings must not all be missing");
}

function requireTimeErrors(readings: TimeErrorReadings, refuse: Refuse): void {
  const { timeError, spacing, nominalPeriod } = readings;
  if (!isPositive(spacing)) refuse(`spacing must be > 0 s, got ${spacing}`);
  if (nominalPeriod !== undefined && !isPositive(nominalPeriod)) {
    refuse(`nominalPeriod must be > 0 s, got ${nominalPeriod}`);
  }
  let present = 0;
  for (let i = 0; i < timeError.length; i++) {
    if (Number.isNaN(timeError[i]!)) continue;
    present++;
    if (!Number.isFinite(timeError[i]!)) {
      refuse(`timeError[${i}] must be finite or NaN, got ${timeError[i]}`);
    }
  }
  if (present === 0) refuse("readings must not all be missing");
}

const isPositive = (value: number): boolean => value > 0 && value < Number.POSITIVE_INFINITY;
