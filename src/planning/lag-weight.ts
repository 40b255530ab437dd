import type { Weighting } from "./weighting.ts";

/** A weighting of equally spaced stamps. */
export type StampWeighting = Extract<Weighting, { stamps: number }>;

/**
 * Σ_k w_k·w_{k+m}: how much two stamps m apart count together.
 *
 *   line: c²·M·[(M² − 1)/12 − m²/4], M = N − m, c = 12/(N(N² − 1)τ)
 *   half means: [2·(h − m)⁺ − (h − |m − h|)⁺]/(h²τ)², h = N/2
 *
 * @param weighting - line or half means
 * @param m - lag in stamps; 0 <= m < N, between the integers too
 * @returns 1/s²
 *
 * Source: own derivation from the weights. Exact case: m = 0 gives `sumOfSquares`.
 */
export function lagWeight(weighting: StampWeighting, m: number): number {
  const { kind, stamps: n, spacing } = weighting;
  if (kind === "half_means") {
    const half = n / 2;
    const norm = 1 / (half * half * spacing);
    const together = 2 * Math.max(0, half - m) - Math.max(0, half - Math.abs(m - half));
    return norm * norm * together;
  }
  const norm = 12 / (n * (n * n - 1) * spacing);
  const overlap = n - m;
  return norm * norm * overlap * ((overlap * overlap - 1) / 12 - (m * m) / 4);
}

/**
 * The lag up to which `lagWeight` is smooth: it may have a kink there.
 *
 * @param weighting - line or half means
 * @returns lag in stamps
 */
export function smoothStretch(weighting: StampWeighting): number {
  return weighting.kind === "half_means" ? weighting.stamps / 2 : weighting.stamps - 1;
}
