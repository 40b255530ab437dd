import type { RecordColumns } from "../../chain/index.ts";
import type { Outlier } from "../protocol.ts";

/**
 * Finds the reading that holds a whole number of cycles too few or too many, and does as asked with it.
 *
 * A reading out by a whole period is one whose counter interval is nearest to another number of periods than
 * counted. Dropped, it leaves a gap; repaired, it gets the number that fits.
 *
 * @param record - readings of periods
 * @param period - nominal period; s
 * @param outlier - what to do
 * @returns the record as it goes to the estimators, and the reading's index, −1 for none
 */
export function treatOutlier(
  record: RecordColumns,
  period: number,
  outlier: Outlier,
): { readonly treated: RecordColumns; readonly at: number } {
  if (outlier === "none") return { treated: record, at: -1 };
  const { cycles, interval } = record;
  const fitting = interval.map((value) => Math.round(value / period));
  const at = cycles.findIndex((n, i) => fitting[i]! !== n && !Number.isNaN(interval[i]!));
  if (at < 0 || outlier === "kept") return { treated: record, at };
  if (outlier === "dropped") {
    const gap = record.interval.slice();
    const error = record.error.slice();
    gap[at] = Number.NaN;
    error[at] = Number.NaN;
    return { treated: { ...record, interval: gap, error }, at };
  }
  const repairedCycles = cycles.slice();
  const error = record.error.slice();
  repairedCycles[at] = fitting[at]!;
  error[at]! += (fitting[at]! - cycles[at]!) * period;
  return { treated: { ...record, cycles: repairedCycles, error }, at };
}
