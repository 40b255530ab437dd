import { estimateRates, meanOfReadingsSlope, rateOfSlope } from "../../analysis/index.ts";
import { pow } from "../../numeric/index.ts";
import type { PeriodReadings } from "../../readings/index.ts";
import type { Pace } from "./pace.ts";

/** Fewest readings that an interval is given for. */
const fewest = 5;

/** Numbers of readings at which the interval is worked out; between them it is drawn on straight lines. */
const places = 6;

/**
 * The mean of the readings so far, after each of them, and the half-width of its 95 % interval.
 *
 * The half-width is random effects and bound together, worked out at a few numbers of readings, which grow by
 * a constant factor, and interpolated between them in the logarithms.
 *
 * @param readings - the record
 * @param bound - systematic bound; dimensionless
 * @param pace - of the task
 */
export async function runningMean(
  readings: PeriodReadings,
  bound: number,
  pace: Pace,
): Promise<{ readonly mean: Float64Array; readonly halfWidth: Float64Array }> {
  const count = readings.period.length;
  const mean = new Float64Array(count);
  for (let i = 0; i < count; i++) mean[i] = meanOfFirst(readings, i + 1);
  const halfWidth = new Float64Array(count).fill(Number.NaN);
  const known: number[] = [];
  for (let place = 0; place < places && count >= fewest; place++) {
    const k = Math.round(fewest * pow(count / fewest, place / (places - 1)));
    if (known.includes(k)) continue;
    const [estimate] = estimateRates(firstOf(readings, k), { systematicBound: bound });
    const [low, high] = estimate!.interval95;
    halfWidth[k - 1] = (high - low) / 2 + bound;
    known.push(k);
    await pace.breathe(1);
  }
  for (let j = 1; j < known.length; j++) interpolate(halfWidth, known[j - 1]!, known[j]!);
  return { mean, halfWidth };
}

function firstOf(readings: PeriodReadings, k: number): PeriodReadings {
  const { period, cycles, start } = readings;
  return {
    ...readings,
    period: period.slice(0, k),
    cycles: cycles.slice(0, k),
    start: start?.slice(0, k) ?? null,
  };
}

function meanOfFirst({ period, cycles, nominalPeriod }: PeriodReadings, k: number): number {
  const kept = [...period.subarray(0, k).keys()].filter((i) => !Number.isNaN(period[i]!));
  if (kept.length === 0) return Number.NaN;
  const counted = Float64Array.from(kept, (i) => cycles[i]!);
  const gained = Float64Array.from(kept, (i) => cycles[i]! * (nominalPeriod - period[i]!));
  return rateOfSlope(meanOfReadingsSlope(gained, counted, nominalPeriod));
}

function interpolate(values: Float64Array, from: number, to: number): void {
  const [first, last] = [values[from - 1]!, values[to - 1]!];
  for (let k = from + 1; k < to; k++) {
    const share = Math.log(k / from) / Math.log(to / from);
    values[k - 1] = first * pow(last / first, share);
  }
}
