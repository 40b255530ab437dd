/**
 * How an estimator of the rate weights the time errors of the edges it stamps: s = Σ w_k·x(t_k), Σ w_k = 0,
 * Σ w_k·t_k = 1.
 *
 * `line`: a straight line fitted by least squares to N equally spaced stamps; N = 2 are the end points alone,
 * which is what the mean of back-to-back readings comes down to.
 * `gates`: the mean of K readings, each over one gate, with a gap between one and the next.
 *
 * Source: Rubiola, Rev. Sci. Instrum. 76, 054703 (2005); Rubiola et al. 2016 (arXiv:1506.05009).
 */
export type Weighting =
  | {
      readonly kind: "line";
      /** Stamps N; integer >= 2. */
      readonly stamps: number;
      /** Time from stamp to stamp; s, > 0. */
      readonly spacing: number;
      /** Of end points: by how much a longer run moves them apart; s, > 0. */
      readonly step?: number;
    }
  | {
      readonly kind: "gates";
      /** Readings K; integer >= 1. */
      readonly readings: number;
      /** Length of a gate; s, > 0. */
      readonly gate: number;
      /** Time from one start to the next; s, >= gate. */
      readonly spacing: number;
    };

/**
 * The end points alone: w = ±1/T.
 *
 * @param span - time between them; s, > 0
 * @param step - by how much a longer run moves them apart; s, > 0
 */
export function endPoints(span: number, step: number = span): Weighting {
  return { kind: "line", stamps: 2, spacing: span, step };
}

/**
 * Σ w_k²: what independent noise of unit variance on every stamp adds to the variance of the estimate.
 *
 *   line: 12/(N(N² − 1)τ²);  gates: 2/(K·G²)
 *
 * @returns 1/s²
 *
 * Source: Rubiola et al. 2016; Dawkins, McFerran & Luiten, IEEE UFFC 54, 918 (2007). Exact.
 */
export function sumOfSquares(weighting: Weighting): number {
  if (weighting.kind === "gates") return 2 / (weighting.readings * weighting.gate ** 2);
  const { stamps: n, spacing } = weighting;
  return 12 / (n * (n * n - 1) * spacing * spacing);
}

/**
 * ∫g² of the weight g(t) that the estimator gives to frequency, which is the variance for white FM of unit
 * two-sided density: the variance of the estimate is (h₀/2)·∫g².
 *
 *   line: 6(N² + 1)/(5N(N² − 1)τ);  gates: 1/(K·G)
 *
 * @returns 1/s
 *
 * Source: Rubiola et al. 2016 (6/5 of the end points' value for many stamps); the
 * discrete forms are exact.
 */
export function frequencySumOfSquares(weighting: Weighting): number {
  if (weighting.kind === "gates") return 1 / (weighting.readings * weighting.gate);
  const { stamps: n, spacing } = weighting;
  return (6 * (n * n + 1)) / (5 * n * (n * n - 1) * spacing);
}

/**
 * ∫G², G(t) = ∫_t^∞ g: the variance for a random walk of frequency, of unit diffusion, that starts from zero
 * with the first stamp.
 *
 *   end points: T/3;  line, many stamps: (13·N/35 − ½)·τ;  gates: K·G/3 + (P − G)(K − 1)(2K − 1)/(6K)
 *
 * @returns s
 *
 * Source: own derivation; sums of stamps are exact up to 4096, beyond by their limit (to a part
 * of 1/N²).
 */
export function randomWalkSum(weighting: Weighting): number {
  if (weighting.kind === "gates") {
    const { readings: k, gate, spacing } = weighting;
    return (k * gate) / 3 + ((spacing - gate) * (k - 1) * (2 * k - 1)) / (6 * k);
  }
  const { stamps: n, spacing } = weighting;
  if (n > 4096) return ((13 / 35) * n - 0.5) * spacing;
  let rest = 1;
  let sum = 0;
  for (let j = 1; j < n; j++) {
    const next = rest - (6 * j * (n - j)) / (n * (n * n - 1));
    sum += rest * rest + rest * next + next * next;
    rest = next;
  }
  return (sum * spacing) / 3;
}
