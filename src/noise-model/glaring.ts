import { middle } from "./middle.ts";
import type { ReadingRecord } from "./reading-record.ts";

/** Robust deviations of a reading beyond which it stands out by itself: once in 1e11 by Gaussian chance. */
const far = 7;
/** Readings on either side whose median a reading is held against. */
const neighbours = 5;
/** Share of readings above which what stands out is how the record is. */
const mostShare = 0.1;

/** What stands out before any model: readings that are off, and edges that are off by themselves. */
export interface Glaring {
  /** Readings with a step in them, or wrong altogether. */
  readonly readings: readonly number[];
  /** Readings whose last edge is off: they and the next are off by as much, the other way round. */
  readonly edges: readonly number[];
}

/**
 * Readings that stand out of their neighbours by more than noise could do, found before the model so that it need not
 * start from them.
 *
 * @param record - readings
 * @returns what stands out; nothing where it is more than a tenth of the record
 *
 * Source: median and median absolute deviation (Hampel 1974).
 */
export function glaring(record: ReadingRecord): Glaring {
  const { length, gain, gap } = record;
  const size = length.length;
  const rate = gain.map((g, i) => g / length[i]!);
  const window: number[] = [];
  const offAt = (i: number) => {
    window.length = 0;
    const from = Math.max(0, Math.min(i - neighbours, size - 2 * neighbours - 1));
    for (let j = from; j < Math.min(size, from + 2 * neighbours + 1); j++) {
      if (j !== i && !Number.isNaN(rate[j]!)) window.push(rate[j]!);
    }
    return window.length < 3 ? 0 : (rate[i]! - centre(window)) * length[i]!;
  };
  // A sample gives the scale; most readings are cleared by a look at either neighbour.
  const stride = Math.ceil(size / 10_000);
  const sizes: number[] = [];
  for (let i = 0; i < size; i += stride)
    if (!Number.isNaN(rate[i]!)) sizes.push(Math.abs(offAt(i)));
  const limit = far * 1.4826 * middle(sizes);
  const off = new Map<number, number>();
  for (let i = 0; limit > 0 && i < size; i++) {
    const near = limit / (3 * length[i]!);
    if (Math.abs(rate[i]! - rate[i - 1]!) < near || Math.abs(rate[i]! - rate[i + 1]!) < near)
      continue;
    const d = offAt(i);
    if (Math.abs(d) > limit) off.set(i, d);
  }
  const flagged = [...off.keys()];
  const readings: number[] = [];
  const edges: number[] = [];
  if (flagged.length > mostShare * size) return { readings, edges };
  for (let k = 0; k < flagged.length; k++) {
    const i = flagged[k]!;
    const next = flagged[k + 1] === i + 1 && gap[i + 1] === 0;
    const both = next ? off.get(i)! + off.get(i + 1)! : 0;
    if (next && Math.abs(both) < 0.5 * limit) {
      edges.push(i);
      k++;
    } else readings.push(i);
  }
  return { readings, edges };
}

/** Median of a handful. */
function centre(window: number[]): number {
  window.sort((a, b) => a - b);
  const half = window.length >> 1;
  return window.length % 2 === 1 ? window[half]! : 0.5 * (window[half - 1]! + window[half]!);
}
