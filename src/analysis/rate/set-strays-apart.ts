import type { Readings } from "../readings/readings.ts";
import { median, robustDeviation } from "./median.ts";
import type { Outlier } from "./outlier.ts";

/** Cut in robust standard deviations. */
const cut = 5;
/** Readings on either side of the running median from which the distance is taken. */
const reach = 10;
/** Readings for which one running median serves. */
const hop = 5;

/**
 * Readings that are no whole slip and yet lie further from their neighbours than noise carries them: more than
 * five robust standard deviations from a running median of 21.
 *
 * @param readings - the record, its slips repaired
 * @returns the strays, in order, and the record with a gap in the place of each
 *
 * Source: cut of 5 median deviations: Riley, NIST SP 1065, outlier removal (from memory); the running median, so
 * that a wandering rate is no outlier, is own practice. Exact case: equal readings have no strays.
 */
export function setStraysApart(readings: Readings): { strays: Outlier[]; without: Readings } {
  const values = readings.kind === "period" ? readings.period : readings.timeError;
  const distance = residuals(values, readings.kind);
  const deviation = robustDeviation(distance, 0);
  const strays: Outlier[] = [];
  // Where more than half the readings agree to the last digit the rule has no scale to go by.
  if (!(deviation > 0)) return { strays, without: readings };
  const kept = values.slice();
  for (let i = 0; i < values.length; i++) {
    if (!(Math.abs(distance[i]!) > cut * deviation)) continue;
    const cycles =
      readings.kind === "period"
        ? (distance[i]! * readings.cycles[i]!) / readings.period[i]!
        : -distance[i]! / (readings.nominalPeriod ?? Number.NaN);
    strays.push({ reading: i, kind: "stray", cycles, repaired: false });
    kept[i] = Number.NaN;
  }
  if (strays.length === 0) return { strays, without: readings };
  const without: Readings =
    readings.kind === "period"
      ? { ...readings, period: kept, start: readings.start ?? startsOf(readings) }
      : { ...readings, timeError: kept };
  return { strays, without };
}

/** Distance of each value from the running median of its neighbours; of time errors, from their local trend. */
function residuals(values: Float64Array, kind: Readings["kind"]): Float64Array {
  const width = Math.min(2 * reach + 1, values.length);
  const out = new Float64Array(values.length);
  // A median holds for a few readings in the middle of its neighbours: moving it by one each time changes little.
  for (let i = 0; i < values.length; i += hop) {
    const last = Math.min(i + hop, values.length);
    const from = Math.max(0, Math.min(i + (hop >> 1) - reach, values.length - width));
    const near = values.subarray(from, from + width);
    // Straight through the medians of both halves, so that a steep record has no strays at its ends.
    const half = near.length >> 1;
    const rise =
      kind === "period" || half === 0
        ? 0
        : median(near.subarray(near.length - half)) - median(near.subarray(0, half));
    const slope = rise / Math.max(1, near.length - half);
    const level = slope === 0 ? median(near) : median(near.map((x, j) => x - slope * j));
    for (let k = i; k < last; k++) out[k] = values[k]! - level - slope * (k - from);
  }
  return out;
}

/** Back to back the readings themselves tell when each began. */
function startsOf(readings: Extract<Readings, { kind: "period" }>): Float64Array | null {
  if (!readings.backToBack) return null;
  const start = new Float64Array(readings.period.length);
  for (let i = 1; i < start.length; i++) {
    start[i] = start[i - 1]! + readings.cycles[i - 1]! * readings.period[i - 1]!;
  }
  return start;
}
