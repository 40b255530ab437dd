import { relaxationStep } from "./relaxation-step.ts";

/** What one exact step of a relaxation process or random walk needs, for a diffusion of 1. */
export interface TermStep {
  /** Part of the start value that is left at the end; dimensionless. */
  readonly decay: number;
  /** Variance of the end value given the start, over D; s. */
  readonly spread: number;
  /** Weight of each end value in the mean of the integral; s. */
  readonly weight: number;
  /** Variance of the integral given both end values, over D; s³. */
  readonly residual: number;
}

/**
 * One exact step of y' = −y/T + √D·W', a random walk where T = ∞.
 *
 *   T·relaxationStep(dt/T), in the limit T → ∞: decay 1, spread dt, weight dt/2, residual dt³/12
 *
 * @param time - time constant T; s, > 0, Infinity for a random walk
 * @param dt - step; s, >= 0
 * @returns the four factors
 *
 * Source: as `relaxationStep`; Brownian bridge. Exact case: dt = 0 gives decay 1 and 0, 0, 0.
 */
export function termStep(time: number, dt: number): TermStep {
  if (time === Infinity) {
    return { decay: 1, spread: dt, weight: 0.5 * dt, residual: (dt * dt * dt) / 12 };
  }
  const step = relaxationStep(dt / time);
  return {
    decay: step.decay,
    spread: time * step.spread,
    weight: time * step.weight,
    residual: time * time * time * step.residual,
  };
}
