import type { SquareSum } from "./gap-rule.ts";

/** Terms after which a running sum is begun anew at the earliest, so that rounding cannot pile up. */
const shortestRun = 512;

/**
 * Sum of squared second differences of m-sample sums, the core of the modified Allan variance.
 *
 *   S_j = Σ_{i=j}^{j+m−1} (x[i+2m] − 2 x[i+m] + x[i]),  j = 0 … N − 3m;  result Σ S_j²
 *
 * S_j is carried on by S_{j+1} = S_j + x[j+3m] − 3 x[j+2m] + 3 x[j+m] − x[j], and summed anew every max(m, 512)
 * terms: as many additions as a direct sum of one S_j, so the rounding is no worse, at two operations a term.
 *
 * @param x - time error; N samples, s
 * @param m - averaging factor; integer, m >= 1 and 3m <= N
 * @returns sum in s² and counts; a term is skipped if any of its 3m samples is NaN
 *
 * Source: IEEE Std 1139, modified Allan variance; running sums own derivation.
 * Exact for linear frequency drift D: every S_j is D·m³τ₀².
 */
export function averagedDifferenceSquares(x: Float64Array, m: number): SquareSum {
  const gaps = gapCounts(x);
  const filled = gaps === null ? x : bridged(x);
  const terms = x.length - 3 * m + 1;
  const run = Math.max(m, shortestRun);
  let sum = 0;
  let skipped = 0;
  for (let start = 0; start < terms; start += run) {
    const end = Math.min(start + run, terms);
    let s = 0;
    for (let i = start; i < start + m; i++) {
      s += filled[i + 2 * m]! - filled[i + m]! - (filled[i + m]! - filled[i]!);
    }
    if (gaps === null) {
      sum += s * s;
      for (let j = start + 1; j < end; j++) {
        s +=
          filled[j + 3 * m - 1]! -
          filled[j - 1]! -
          3 * (filled[j + 2 * m - 1]! - filled[j + m - 1]!);
        sum += s * s;
      }
    } else {
      for (let j = start; j < end; j++) {
        if (gaps[j + 3 * m]! > gaps[j]!) skipped++;
        else sum += s * s;
        if (j + 1 < end) {
          s += filled[j + 3 * m]! - filled[j]! - 3 * (filled[j + 2 * m]! - filled[j + m]!);
        }
      }
    }
  }
  return { sum, terms: terms - skipped, skipped };
}

/** Each gap with the value before it, the first with that after it: a leap would leave its rounding in running sums. */
function bridged(x: Float64Array): Float64Array {
  let last = x.find((value) => !Number.isNaN(value)) ?? 0;
  return x.map((value) => {
    if (!Number.isNaN(value)) last = value;
    return last;
  });
}

/** NaN before each index, N + 1 entries; null if the record has none. */
function gapCounts(x: Float64Array): Int32Array | null {
  let first = 0;
  while (first < x.length && !Number.isNaN(x[first]!)) first++;
  if (first === x.length) return null;
  const counts = new Int32Array(x.length + 1);
  for (let i = first; i < x.length; i++) counts[i + 1] = counts[i]! + (Number.isNaN(x[i]!) ? 1 : 0);
  return counts;
}
