import { estimateRates } from "../../judgement/index.ts";
import { pow } from "../../numeric/index.ts";
import type { PeriodReadings } from "../../readings/index.ts";
import type { ChartOptions, SvgNode } from "../chart/index.ts";
import { readingsChart } from "../chart/index.ts";
import { type PictureContext, validCount } from "./picture-context.ts";

/** Prefixes of a record at which the uncertainty of the running mean is found. */
const bandPoints = 18;

/**
 * Single readings with their running mean (count over time), its 95 % band and the truth.
 *
 * The band is random effects and bound together, as in the lesson: else it would leave the truth out for good.
 *
 * @param readings - at least two that are there; rates are dimensionless
 */
export function runningMeanPicture(
  readings: PeriodReadings,
  context: PictureContext,
  options: ChartOptions,
): SvgNode {
  const { period, cycles, nominalPeriod } = readings;
  const rate = period.map((p) => nominalPeriod / p - 1);
  const mean = new Float64Array(period.length);
  let gained = 0;
  let count = 0;
  for (let i = 0; i < period.length; i++) {
    if (!Number.isNaN(period[i]!)) {
      gained += cycles[i]! * (nominalPeriod - period[i]!);
      count += cycles[i]!;
    }
    const slope = gained / (count * nominalPeriod);
    mean[i] = slope / (1 - slope);
  }
  return readingsChart(
    {
      time: startsOf(readings),
      reading: rate,
      mean,
      halfWidth: runningHalfWidth(readings).map((half) => half + context.systematicBound),
      truth: context.truth,
    },
    options,
  );
}

function startsOf({ start, period, cycles }: PeriodReadings): Float64Array {
  if (start?.every((t, i) => i === 0 || t > start[i - 1]!)) return start;
  let t = 0;
  return period.map((p, i) => {
    const at = t;
    t += Number.isNaN(p) ? 0 : p * cycles[i]!;
    return at;
  });
}

/** Half-width of the 95 % interval of the mean of the first readings, found at some lengths, joined between. */
function runningHalfWidth(readings: PeriodReadings): Float64Array {
  const size = readings.period.length;
  const halfWidth = new Float64Array(size).fill(Number.NaN);
  const first = 6;
  if (size < first) return halfWidth;
  let lastAt = -1;
  for (let k = 0; k <= bandPoints; k++) {
    const at = Math.round(first * pow(size / first, k / bandPoints)) - 1;
    if (at <= lastAt) continue;
    const half = halfWidthOf(readings, at + 1);
    if (lastAt >= 0) join(halfWidth, lastAt, at, half);
    halfWidth[at] = half;
    lastAt = at;
  }
  return halfWidth;
}

function halfWidthOf(readings: PeriodReadings, count: number): number {
  const { period, cycles, start } = readings;
  if (validCount(period.subarray(0, count)) < 5) return Number.NaN;
  const [mean] = estimateRates({
    ...readings,
    period: period.subarray(0, count),
    cycles: cycles.subarray(0, count),
    start: start?.subarray(0, count) ?? null,
  });
  return (mean!.interval95[1] - mean!.interval95[0]) / 2;
}

/** Fills the values between two known ones, straight on logarithmic axes. */
function join(values: Float64Array, from: number, to: number, last: number): void {
  const begin = values[from]!;
  for (let i = from + 1; i < to; i++) {
    const share = Math.log((i + 1) / (from + 1)) / Math.log((to + 1) / (from + 1));
    values[i] = begin * pow(last / begin, share);
  }
}
