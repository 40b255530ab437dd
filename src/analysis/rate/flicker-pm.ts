/**
 * Flicker PM of unit level, sampled once an interval: two-sided spectrum S_x(f) = 1/(2 sin πf), 0 < f <= 1/2 cycle an
 * interval, against S_x = 1 for white PM of unit variance.
 *
 * Half its structure function: D(j) = ½⟨(x(i+j) − x(i))²⟩ = (2/π)·Σ_{m=1}^{j} 1/(2m − 1).
 *
 * @param count - largest lag wanted; intervals, >= 0
 * @returns D(0) … D(count); in units of the level
 *
 * Source: own derivation, sin²(jx)/sin x = Σ sin((2m − 1)x); the spectrum is that of Kasdin & Walter 1992 for 1/f
 * noise. Exact case: D(1) = 2/π.
 */
export function flickerPmStructure(count: number): Float64Array {
  const d = new Float64Array(count + 1);
  for (let j = 1; j <= count; j++) d[j] = d[j - 1]! + 2 / (Math.PI * (2 * j - 1));
  return d;
}

/** The same at one lag, by its asymptotic series beyond a hundred: (ln 4j + γ)/π, to 1e-6. */
function structureAt(lag: number): number {
  const j = Math.max(1, Math.round(lag));
  if (j <= 100) return flickerPmStructure(j)[j]!;
  return (Math.log(4 * j) + 0.5772156649 + 1 / (24 * j * j)) / Math.PI;
}

/**
 * Variance of the difference of two edges under flicker PM of unit level.
 *
 * @param lag - intervals between them; > 0
 * @returns 2D(lag); in units of the level
 */
export function flickerPmAtEnds(lag: number): number {
  return 2 * structureAt(lag);
}

/** Edges beyond which the line's variance is that of a long record, to less than a per cent. */
const many = 2000;

/**
 * Variance of the least-squares slope through N = K + 1 even edges under flicker PM of unit level.
 *
 *   −(2/S²)·Σ_d D(d)·[n(n² − 1)/12 − n·d²/4],  n = N − d,  S = N(N² − 1)/12
 *
 * @param intervals - K; > 0
 * @returns variance of the slope; level's unit an interval squared
 *
 * Source: own derivation (sums of products of the line's weights). Exact case: two edges, 2D(1).
 */
export function flickerPmOfLine(intervals: number): number {
  const k = Math.max(1, Math.round(intervals));
  // The sum tends to a constant over K²: the line then averages the same few octaves.
  if (k > many) return flickerPmOfLine(many) * (many / k) ** 2;
  const edges = k + 1;
  const structure = flickerPmStructure(k);
  const square = (edges * (edges * edges - 1)) / 12;
  let sum = 0;
  for (let d = 1; d < edges; d++) {
    const n = edges - d;
    sum += structure[d]! * ((n * (n * n - 1)) / 12 - (n * d * d) / 4);
  }
  return (-2 * sum) / (square * square);
}

/**
 * Mean square of flicker PM of unit level about its mean over a record.
 *
 * @param intervals - length of the record; >= 1
 * @returns the mean square; in units of the level
 *
 * Source: own derivation, D averaged over all pairs of edges: (ln 4K + γ − 3/2)/π.
 */
export function flickerPmInRecord(intervals: number): number {
  return Math.max(0.1, (Math.log(4 * intervals) + 0.5772156649 - 1.5) / Math.PI);
}
