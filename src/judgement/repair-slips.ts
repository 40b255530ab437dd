import { median, present, robustDeviation } from "../numeric/index.ts";
import type { PeriodReadings, Readings, TimeErrorReadings } from "../readings/index.ts";
import type { Outlier } from "./outlier.ts";

/** A record with its counts put right, and what was wrong. */
export interface RepairedReadings {
  readonly readings: Readings;
  readonly slips: readonly Outlier[];
  /** Time which the slips took from the dial (> 0: lost), if it was the clock that slipped; s. */
  readonly lost: number;
}

/** A slip is taken for certain where it is within this many robust deviations of a whole one. */
const certain = 6;
/** At most this share of a record may slip; more is no slip but another rate. */
const mostSlipped = 0.2;

/**
 * Puts right the counts of readings in which edges were missed or counted twice.
 *
 *   r_i = c_i·P_i/P̃ − c_i cycles, P̃ the median period; k = r_i rounded ≠ 0 and |r_i − k| small: c_i += k
 *
 * A missed edge makes a reading of c cycles last as long as c + 1: the time is right, the count is not. So the
 * reading is kept, and a back-to-back record stays whole. In time errors a slip is a step of whole periods.
 * Readings cannot tell a slip of the clock from one of the counter: `lost` holds for the clock, whose dial is
 * behind by a nominal period for every tick it missed, whatever the tick lasted.
 * So many cycles that P̃ does not tell their number for certain are no slip (the 9.9e37 that a counter shows when it
 * overflows is a whole number as every such double is). Nor is a reading that no cycle would be left of, from an edge
 * to its bounce.
 *
 * @param readings - the record
 * @param unit - smallest slip; cycles, 0 < unit <= 1 (1/steps where single steps of a tick may be lost)
 * @returns the record with its counts put right; the same object where nothing was wrong
 * @throws RangeError if unit is outside its range
 *
 * Source: own derivation. Exact case: without noise, one missed edge in one reading of c gives P = P̃(c + 1)/c.
 */
export function repairSlips(readings: Readings, unit = 1): RepairedReadings {
  if (!(unit > 0 && unit <= 1)) {
    throw new RangeError(`repairSlips: unit must lie above 0 and not above 1, got ${unit}`);
  }
  return readings.kind === "period" ? ofPeriods(readings, unit) : ofTimeErrors(readings, unit);
}

function ofPeriods(readings: PeriodReadings, unit: number): RepairedReadings {
  const { period, cycles, nominalPeriod } = readings;
  const usual = median(period);
  const residual = period.map((p, i) => (cycles[i]! * (p - usual)) / usual);
  const slipped = slips(residual, unit, cycles);
  if (slipped.length === 0) return { readings, slips: [], lost: 0 };
  const right = { period: period.slice(), cycles: cycles.slice() };
  let lost = 0;
  for (const { reading: i, cycles: k } of slipped) {
    right.cycles[i] = cycles[i]! + k;
    right.period[i] = (cycles[i]! * period[i]!) / right.cycles[i]!;
    lost += k * nominalPeriod;
  }
  return { readings: { ...readings, ...right }, slips: slipped, lost };
}

function ofTimeErrors(readings: TimeErrorReadings, unit: number): RepairedReadings {
  const { timeError, nominalPeriod } = readings;
  if (nominalPeriod === undefined) return { readings, slips: [], lost: 0 };
  const step = new Float64Array(timeError.length).fill(Number.NaN);
  let before = Number.NaN;
  for (let i = 0; i < timeError.length; i++) {
    if (Number.isNaN(timeError[i]!)) continue;
    // A missed period makes every later edge seem early by one less: x falls by a period.
    step[i] = -(timeError[i]! - before) / nominalPeriod;
    before = timeError[i]!;
  }
  const usual = median(step);
  const slipped = slips(
    step.map((s) => s - usual),
    unit,
  );
  if (slipped.length === 0) return { readings, slips: [], lost: 0 };
  const right = timeError.slice();
  let lost = 0;
  let next = 0;
  for (let i = 0; i < right.length; i++) {
    if (slipped[next]?.reading === i) lost += slipped[next++]!.cycles * nominalPeriod;
    right[i] = right[i]! + lost;
  }
  return { readings: { ...readings, timeError: right }, slips: slipped, lost };
}

/**
 * Whole slips among residuals that are otherwise well below one.
 *
 * @param cycles - counted in each reading, by which the uncertainty of the median period is multiplied; left out where
 *   residuals come from no period
 */
function slips(residual: Float64Array, unit: number, cycles?: Float64Array): Outlier[] {
  const deviation = robustDeviation(residual, 0);
  const tolerance = Math.max(certain * deviation, 1e-9);
  if (!(tolerance < unit / 2)) return [];
  // Of a median: √(π/2) times the uncertainty of a mean.
  const ofMedian = (deviation * Math.sqrt(Math.PI / 2)) / Math.sqrt(present(residual).length);
  const isCertain = (k: number, count: number) =>
    count + k > unit / 2 &&
    certain * ofMedian * Math.abs(1 + k / count) < unit / 2 &&
    Number.EPSILON * Math.abs(k) < tolerance;
  const found: Outlier[] = [];
  let known = 0;
  for (let i = 0; i < residual.length; i++) {
    const r = residual[i]!;
    if (Number.isNaN(r)) continue;
    known++;
    const k = unit * Math.round(r / unit);
    if (k === 0 || Math.abs(r - k) > tolerance) continue;
    if (!isCertain(k, cycles?.[i] ?? Number.POSITIVE_INFINITY)) continue;
    found.push({
      reading: i,
      kind: k > 0 ? "missed_edge" : "extra_edge",
      cycles: k,
      repaired: true,
    });
  }
  return found.length <= mostSlipped * known ? found : [];
}
