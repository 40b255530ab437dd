import { exp } from "../numeric/index.ts";

/** What one exact step of a relaxation process needs, in units of its time constant and diffusion. */
export interface RelaxationStep {
  /** e^(−u). */
  readonly decay: number;
  /** (1 − e^(−2u))/2: variance of the end value given the start, over D·T. */
  readonly spread: number;
  /** tanh(u/2): weight of each end value in the mean of the integral, over T. */
  readonly weight: number;
  /** u − 2·tanh(u/2): variance of the integral given both end values, over D·T³. */
  readonly residual: number;
}

/**
 * One exact step of the relaxation process y' = −y/T + √D·W' over u = dt/T.
 *
 *   y₁ = e^(−u)·y₀ + √(D·T·(1 − e^(−2u))/2)·g₁
 *   ∫y = T·tanh(u/2)·(y₀ + y₁) + √(D·T³·(u − 2·tanh(u/2)))·g₂
 *
 * Below u = 2 all comes from the continued fraction of tanh, which has no cancellation.
 *
 * @param u - step over time constant; dimensionless, >= 0
 * @returns the four factors; dimensionless
 *
 * Source: Gillespie, Phys. Rev. E 54, 2084 (1996); in this form by conditioning on the end value;
 * continued fraction: DLMF 4.39.1. Exact case: u = 0 gives decay 1 and 0, 0, 0.
 */
export function relaxationStep(u: number): RelaxationStep {
  if (u < 2) {
    const x = 0.5 * u;
    const s = x * x;
    let tail = 19;
    for (let odd = 17; odd >= 3; odd -= 2) {
      tail = odd + s / tail;
    }
    const c = s / tail;
    const t = x / (1 + c);
    return {
      decay: (1 - t) / (1 + t),
      spread: (2 * t) / ((1 + t) * (1 + t)),
      weight: t,
      residual: (u * c) / (1 + c),
    };
  }
  const a = exp(-u);
  const t = (1 - a) / (1 + a);
  return { decay: a, spread: 0.5 * (1 - a * a), weight: t, residual: u - 2 * t };
}
