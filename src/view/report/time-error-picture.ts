import { edgeRecord, lineFitSlope } from "../../judgement/index.ts";
import type { Readings } from "../../readings/index.ts";
import type { ChartOptions, SvgNode } from "../chart/index.ts";
import { timeErrorChart } from "../chart/index.ts";
import { type PictureContext, validCount } from "./picture-context.ts";

/**
 * Accumulated time error (s) with the line fitted to it, slips and fallback marked.
 *
 * @returns null where the readings do not stand on one scale, or are fewer than three
 */
export function timeErrorPicture(
  readings: Readings,
  context: PictureContext,
  options: ChartOptions,
): SvgNode | null {
  const { slips, fallback } = context;
  let time: Float64Array;
  let timeError: Float64Array;
  if (readings.kind === "time_error") {
    timeError = readings.timeError;
    time = timeError.map((_, i) => i * readings.spacing);
  } else {
    if (validCount(readings.period) < 2) return null;
    const record = edgeRecord(readings);
    if (!record.joined) return null;
    time = record.edge.map((n) => n * readings.nominalPeriod + (readings.start?.[0] ?? 0));
    timeError = record.x;
  }
  const kept = [...timeError.keys()].filter((i) => !Number.isNaN(timeError[i]!));
  if (kept.length < 3) return null;
  const t = Float64Array.from(kept, (i) => time[i]!);
  const x = Float64Array.from(kept, (i) => timeError[i]!);
  // Over a slip or another jump a straight line means nothing.
  if (slips.length > 0 || context.jumps)
    return timeErrorChart({ time, timeError, fit: null, slips, fallback }, options);
  const slope = lineFitSlope(t, x, 1);
  const center = (values: Float64Array) => values.reduce((sum, v) => sum + v / values.length, 0);
  const fit = { slope, intercept: center(x) - slope * center(t) };
  return timeErrorChart({ time, timeError, fit, slips, fallback }, options);
}
