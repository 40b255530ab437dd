import { type Domain, finiteExtent } from "./domain.ts";

/** How many times the middle half's width is shown on either side of the median. */
const reach = 5;

/**
 * What of a record should be seen: all of it, unless few wild values would squeeze the rest to a line.
 *
 * Values farther from the median than five times the interquartile range are not shown; Gaussian readings
 * stay inside, as that is 6.7 standard deviations.
 *
 * @param record - values; NaN is passed over
 * @returns the domain, or null where nothing is finite
 */
export function robustDomain(record: Float64Array): Domain | null {
  const extent = finiteExtent(record);
  if (extent === null) {
    return null;
  }
  const sorted = record.filter(Number.isFinite).sort();
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))]!;
  const median = at(0.5);
  const middle = at(0.75) - at(0.25);
  if (middle === 0) {
    return extent;
  }
  const isTame = (value: number) => Math.abs(value - median) <= reach * middle;
  return finiteExtent(sorted.filter(isTame));
}
