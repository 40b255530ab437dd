import type { Weighting } from "./weighting.ts";

/** A weighting of equally spaced stamps. */
export type StampWeighting = Extract<Weighting, { stamps: number }>;

/**
 * Σ_k w_k·w_{k+m}: how much two stamps m apart count together.
 *
 *   line: c²·M·[(M² − 1)/12 − m²/4], M = N − m, c = 12/(N(N² − 1)τ)
 *
 * @param weighting - of a line
 * @param m - lag in stamps; 0 <= m < N, between the integers too
 * @returns 1/s²
 *
 * Source: own derivation from the weights. Exact case: m = 0 gives `sumOfSquares`.
 */
export function lagWeight(weighting: StampWeighting, m: number): number {
  const { stamps: n, spacing } = weighting;
  const norm = 12 / (n * (n * n - 1) * spacing);
  const overlap = n - m;
  return norm * norm * overlap * ((overlap * overlap - 1) / 12 - (m * m) / 4);
}
