import type { Readings } from "../readings/index.ts";

/**
 * When a reading began; s after the start of the record, or as its stamps say. A missing one has taken as long as the
 * others on average.
 */
export function startOf(readings: Readings, reading: number): number {
  if (readings.kind === "time_error") return reading * readings.spacing;
  const { start, period, cycles, deadTime = 0 } = readings;
  if (start !== null && reading < start.length) return start[reading]!;
  const length = (i: number) => cycles[i]! * period[i]!;
  let [before, missing, sum, present] = [0, 0, 0, 0];
  for (let i = 0; i < period.length; i++) {
    if (i === reading) before = sum;
    if (Number.isNaN(length(i))) {
      if (i < reading) missing++;
      continue;
    }
    sum += length(i);
    present++;
  }
  if (reading >= period.length) before = sum;
  return before + reading * deadTime + (missing > 0 ? (missing * sum) / present : 0);
}

/** When a record begins and ends; s. */
export function spanOf(readings: Readings): readonly [from: number, to: number] {
  if (readings.kind === "time_error") {
    return [0, (readings.timeError.length - 1) * readings.spacing];
  }
  const { start, period, cycles, nominalPeriod, deadTime = 0 } = readings;
  const last = period.length - 1;
  if (start === null) return [0, startOf(readings, period.length) - deadTime];
  const length = cycles[last]! * (Number.isNaN(period[last]!) ? nominalPeriod : period[last]!);
  return [start[0]!, start[last]! + length];
}
