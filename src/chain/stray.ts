import type { NoiseLevels } from "../noise/noise-levels.ts";

/** Rms deviations that noise is taken never to exceed: 12 σ, a chance below 1e-32. */
export const surelyWithin = 12;

/**
 * How far frequency noise may carry a time error over a gap, beyond any doubt.
 *
 *   12·√(h₀·g/2 + g²·(ln(T_max/g)·h₋₁ + 2π²·h₋₂·L))
 *
 * The logarithm is at most that of the whole ladder; the random walk has had all of the run to grow.
 *
 * @param levels - the noise
 * @param gap - g; s, >= 0
 * @param length - L, the length of the run; s
 * @returns bound; s
 */
export function strayOver(levels: NoiseLevels, gap: number, length: number): number {
  const ladder = 60;
  const walk = 2 * Math.PI * Math.PI * levels.hMinus2 * length;
  const variance = 0.5 * levels.h0 * gap + gap * gap * (ladder * levels.hMinus1 + walk);
  return surelyWithin * Math.sqrt(variance);
}
