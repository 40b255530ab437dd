import type { Readings } from "../readings/index.ts";

/** When a reading began; s after the start of the record, or as its stamps say. */
export function startOf(readings: Readings, reading: number): number {
  if (readings.kind === "time_error") return reading * readings.spacing;
  const { start, period, cycles } = readings;
  if (start !== null && reading < start.length) return start[reading]!;
  let sum = 0;
  for (let i = 0; i < reading; i++) if (!Number.isNaN(period[i]!)) sum += cycles[i]! * period[i]!;
  return sum;
}

/** When a record begins and ends; s. */
export function spanOf(readings: Readings): readonly [from: number, to: number] {
  if (readings.kind === "time_error") {
    return [0, (readings.timeError.length - 1) * readings.spacing];
  }
  const { start, period, cycles, nominalPeriod } = readings;
  const last = period.length - 1;
  if (start === null) return [0, startOf(readings, period.length)];
  const length = cycles[last]! * (Number.isNaN(period[last]!) ? nominalPeriod : period[last]!);
  return [start[0]!, start[last]! + length];
}
