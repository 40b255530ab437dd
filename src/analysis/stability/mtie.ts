import type { GapRule } from "./gap-rule.ts";

/**
 * Maximum time interval error of a record over windows of n sampling intervals.
 *
 *   MTIE(nτ₀) = max_k [ max_{k<=i<=k+n} x[i] − min_{k<=i<=k+n} x[i] ],  k = 0 … N − 1 − n
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param n - observation interval in sampling intervals; integer, 1 <= n < N
 * @param gaps - "keep" (default): NaN if any sample is NaN; "skip": what is there counts, a lower bound
 * @returns MTIE(nτ₀); s
 * @throws RangeError if n is outside the range above
 *
 * Source: ITU-T Rec. G.810, Appendix II, estimator of MTIE. Exact for a constant frequency offset y: |y|·n·τ₀.
 */
export function mtie(x: Float64Array, n: number, gaps: GapRule = "keep"): number {
  return mtieAt(x, [n], gaps)[0]!;
}

/**
 * Maximum time interval error at several observation intervals.
 *
 * Arrays of the greatest and least value of each window are doubled in place, W_{2p}[i] = max(W_p[i], W_p[i+p]);
 * a window that is no power of two is covered by two that overlap. All octaves cost N·log₂N comparisons.
 *
 * @param x - time error at evenly spaced instants; N samples, s
 * @param intervals - observation intervals n in sampling intervals; integers, 1 <= n < N, in ascending order
 * @param gaps - as for one interval
 * @returns MTIE(nτ₀) for each n, in the same order; s
 * @throws RangeError if an interval is outside the range or out of order
 *
 * Source: ITU-T Rec. G.810, Appendix II; doubling of windows, own derivation.
 */
export function mtieAt(
  x: Float64Array,
  intervals: readonly number[],
  gaps: GapRule = "keep",
): Float64Array {
  const result = new Float64Array(intervals.length).fill(Number.NaN);
  intervals.forEach((n, k) => {
    if (!Number.isInteger(n) || n < 1 || n >= x.length || n < (intervals[k - 1] ?? 1)) {
      throw new RangeError(
        `mtie: n must be ascending integers with 1 <= n < N = ${x.length}, got ${intervals.join(", ")}`,
      );
    }
  });
  const greatest = x.slice();
  const least = x.slice();
  if (x.some(Number.isNaN)) {
    if (gaps === "keep") return result;
    hideGaps(greatest, Number.NEGATIVE_INFINITY);
    hideGaps(least, Number.POSITIVE_INFINITY);
  }
  // greatest[i] and least[i] belong to the samples i … i + width.
  let width = 0;
  for (let k = 0; k < intervals.length; k++) {
    const n = intervals[k]!;
    if (width === 0) width = widen(greatest, least, 0, 1);
    while (2 * width <= n) width = widen(greatest, least, width, width);
    const widest = widestRange(greatest, least, x.length - n, n - width);
    result[k] = widest === Number.NEGATIVE_INFINITY ? Number.NaN : widest;
  }
  return result;
}

/** Joins each window with the one `step` later; returns the new width, in sampling intervals. */
function widen(greatest: Float64Array, least: Float64Array, width: number, step: number): number {
  const end = greatest.length - width - step;
  for (let i = 0; i < end; i++) {
    const high = greatest[i + step]!;
    const low = least[i + step]!;
    if (high > greatest[i]!) greatest[i] = high;
    if (low < least[i]!) least[i] = low;
  }
  return width + step;
}

/** Greatest range over `count` windows, each covered by the window at k and the one `shift` later. */
function widestRange(
  greatest: Float64Array,
  least: Float64Array,
  count: number,
  shift: number,
): number {
  let widest = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < count; k++) {
    const high = Math.max(greatest[k]!, greatest[k + shift]!);
    const low = Math.min(least[k]!, least[k + shift]!);
    if (high - low > widest) widest = high - low;
  }
  return widest;
}

function hideGaps(record: Float64Array, value: number): void {
  for (let i = 0; i < record.length; i++) if (Number.isNaN(record[i]!)) record[i] = value;
}
