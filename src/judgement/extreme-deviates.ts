import { select } from "../numeric/index.ts";
import { studentWithin } from "./student-t.ts";

/**
 * Values that lie further out than normal ones would, up to a share of all of them: the generalised extreme
 * Studentised deviate test, which many such values cannot mask.
 *
 *   R_i = |v_i − mean|/s of what is left without the i − 1 furthest;  λ_i = (n − i)·t/√((n − i − 1 + t²)(n − i + 1)),
 *   t = t_{p, n−i−1}, p = 1 − α/(2(n − i + 1));  as many as the largest i with R_i > λ_i
 *
 * Furthest means from zero, where their median is.
 *
 * @param values - n values about zero, any unit; NaN = left out
 * @param level - probability α that normal values lose any; 0 < α < 1
 * @param share - most that may be extreme, of those that are there; 0 < share < 1/2
 * @returns their places, ascending; none of fewer than 15 values, for which λ is too rough
 *
 * Source: Rosner, Technometrics 25, 165 (1983); NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.3.
 * Exact case: equal values have no extremes.
 */
export function extremeDeviates(values: Float64Array, level: number, share: number): number[] {
  const size = new Float64Array(values.length);
  let n = 0;
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i]!)) size[n++] = Math.abs(values[i]!);
  }
  if (n < fewest) return [];
  const most = Math.max(1, Math.floor(share * n));
  const from = select(size.subarray(0, n), n - most);
  const outer: number[] = [];
  const spread = { count: 0, mean: 0, squares: 0 };
  for (let i = 0; i < values.length; i++) {
    const v = values[i]!;
    if (Math.abs(v) >= from) outer.push(i);
    else if (!Number.isNaN(v)) widen(spread, v);
  }
  // Put back from the inside out: so no sum ever loses what a huge value has drowned.
  outer.sort((a, b) => Math.abs(values[a]!) - Math.abs(values[b]!));
  let found = 0;
  outer.forEach((place, k) => {
    const i = outer.length - k;
    widen(spread, values[place]!);
    if (spread.count < 3) return;
    const deviation = Math.sqrt(spread.squares / (spread.count - 1));
    const size = Math.min(largest, Math.abs(values[place]! - spread.mean));
    const extreme = size / deviation;
    if (i <= most && isExtreme(extreme, n, i, level)) found = Math.max(found, i);
  });
  return outer.slice(outer.length - found).sort((a, b) => a - b);
}

const fewest = 15;

/** Size whose square a double still holds; what is larger is no further out. */
const largest = 1e150;

/** Welford's mean and sum of squares with one more value. */
function widen(spread: { count: number; mean: number; squares: number }, given: number): void {
  const value = Math.max(-largest, Math.min(largest, given));
  spread.count++;
  const off = value - spread.mean;
  spread.mean += off / spread.count;
  spread.squares += off * (value - spread.mean);
}

/** R_i > λ_i, solved for the probability of t, which needs no quantile. */
function isExtreme(r: number, n: number, i: number, level: number): boolean {
  if (!(r >= leastCritical)) return false;
  const left = n - i;
  const square = (r * r * (left + 1) * (left - 1)) / (left * left - r * r * (left + 1));
  // Beside a value as far out as values can be, the others are equal.
  if (!(square >= 0)) return true;
  return 1 - studentWithin(Math.sqrt(square), left - 1) < level / (left + 1);
}

/** No critical value of as many values as are needed is smaller, at any level in use. */
const leastCritical = 2.4;
