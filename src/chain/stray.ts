import type { NoiseLevels } from "../noise/index.ts";

/** Rms deviations that noise is taken never to exceed: 12 σ, a chance below 1e-32. */
export const surelyWithin = 12;

/** Entries, weighted, of the longest flicker ladder there is. */
const ladder = 60;

/**
 * How far phase noise may set one edge off its smooth course, beyond any doubt.
 *
 *   12·√(x_PM² + ln(…)·h₁/4π²), the whole flicker ladder in it
 *
 * @param levels - the noise
 * @returns bound; s
 */
export function edgeStray({ whitePmRms, h1 }: NoiseLevels): number {
  return (
    surelyWithin * Math.sqrt(whitePmRms * whitePmRms + (ladder * h1) / (4 * Math.PI * Math.PI))
  );
}

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
  const walk = 2 * Math.PI * Math.PI * levels.hMinus2 * length;
  const variance = 0.5 * levels.h0 * gap + gap * gap * (ladder * levels.hMinus1 + walk);
  return surelyWithin * Math.sqrt(variance);
}
