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

/**
 * Variance of the mean rate over the next m intervals less that over the last n, from the source's noise.
 *
 *   −[w₀w₁D(n) + w₁w₂D(m) + w₀w₂D(n + m)],  w = 1/n, −1/n − 1/m, 1/m at the three edges
 *   D(τ) = gτ · −h₋₁τ² ln τ · −rτ³/6 for white, flicker and random-walk FM
 *
 * @param h - one hypothesis
 * @param n - intervals of the run; > 0
 * @param m - intervals ahead; > 0
 * @returns the variance; dimensionless
 *
 * Source: own derivation (generalised structure functions). Exact case: n = m gives twice the Allan variance.
 */
export function sourcePredictionVariance(h: NoiseHypothesis, n: number, m: number): number {
  const structure = {
    none: () => 0,
    white_fm: (t: number) => t,
    flicker_fm: (t: number) => -t * t * Math.log(t),
    random_walk_fm: (t: number) => (-t * t * t) / 6,
  }[h.source];
  const w0 = 1 / n;
  const w1 = -1 / n - 1 / m;
  const w2 = 1 / m;
  const sum = w0 * w1 * structure(n) + w1 * w2 * structure(m) + w0 * w2 * structure(n + m);
  return h.level * h.ratio * Math.max(0, -sum);
}
