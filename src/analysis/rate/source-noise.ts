import type { NoiseHypothesis } from "./noise-posterior.ts";

/** Probability below which visible flicker or random-walk FM is not carried on into the future. */
const unlikely = 0.07;

/**
 * Hypotheses to look ahead with: noise that would show and does not, and noise too weak to show, are left out
 * where flicker and random-walk FM together are unlikely; carried on for long enough they would outgrow all else.
 *
 * @param hypotheses - from noisePosterior; at least one
 * @returns those that remain; at least one
 *
 * Exact case: where flicker or random-walk FM is likely, all of them.
 */
export function likelyHypotheses(hypotheses: readonly NoiseHypothesis[]): NoiseHypothesis[] {
  const wanders = (h: NoiseHypothesis) =>
    h.source === "flicker_fm" || h.source === "random_walk_fm";
  const still = hypotheses.filter((h) => !wanders(h));
  const visible = hypotheses.filter((h) => wanders(h) && h.visible);
  const probability = visible.reduce((sum, h) => sum + h.probability, 0);
  if (still.length === 0) return [...hypotheses];
  return probability < unlikely ? still : [...still, ...visible];
}

/**
 * Allan variance of the source's noise alone.
 *
 *   white FM g/m · flicker FM 2 ln 2·h₋₁ · random-walk FM r·m/3
 *
 * @param h - one hypothesis
 * @param m - averaging time in intervals; > 0
 * @returns σ_y²; dimensionless
 *
 * Source: IEEE Std 1139. Exact case: 0 without source noise.
 */
export function sourceAllanVariance(h: NoiseHypothesis, m: number): number {
  const shape = { none: 0, white_fm: 1 / m, flicker_fm: 2 * Math.LN2, random_walk_fm: m / 3 };
  return h.level * h.ratio * shape[h.source];
}

/** First and last edge of a stretch of a record, in intervals. */
export type Stretch = readonly [number, number];

/**
 * Variance of the difference of the mean rates over two stretches, from the source's noise.
 *
 *   −Σ_{i<j} w_i·w_j·D(|t_i − t_j|),  t_i the four ends, w = ∓1/n and ±1/m there
 *   D(τ) = gτ · −h₋₁τ² ln τ · −rτ³/6 for white, flicker and random-walk FM
 *
 * @param h - one hypothesis
 * @param first - one stretch; intervals, n long
 * @param second - the other; intervals, m long
 * @returns the variance; dimensionless
 *
 * Source: own derivation (generalised structure functions). Exact case: the two adjoin and are equally long, twice
 * the Allan variance.
 */
export function sourceDifferenceVariance(
  h: Pick<NoiseHypothesis, "source" | "level" | "ratio">,
  first: Stretch,
  second: Stretch,
): number {
  const structure = {
    none: () => 0,
    white_fm: (t: number) => t,
    flicker_fm: (t: number) => (t > 0 ? -t * t * Math.log(t) : 0),
    random_walk_fm: (t: number) => (-t * t * t) / 6,
  }[h.source];
  const ends = [...first, ...second];
  const [n, m] = [first[1] - first[0], second[1] - second[0]];
  const weights = [-1 / n, 1 / n, 1 / m, -1 / m];
  let sum = 0;
  for (let j = 1; j < 4; j++) {
    for (let i = 0; i < j; i++) {
      sum += weights[i]! * weights[j]! * structure(Math.abs(ends[j]! - ends[i]!));
    }
  }
  return h.level * h.ratio * Math.max(0, -sum);
}

/**
 * Variance of the mean rate over the next m intervals less that over the last n, from the source's noise.
 *
 * @param h - one hypothesis
 * @param n - intervals of the run; > 0
 * @param m - intervals ahead; > 0
 * @returns the variance; dimensionless
 *
 * Source: `sourceDifferenceVariance` of two stretches that adjoin.
 */
export function sourcePredictionVariance(h: NoiseHypothesis, n: number, m: number): number {
  return sourceDifferenceVariance(h, [0, n], [n, n + m]);
}
