import type { Complex } from "./complex.ts";

/** One term of an autocorrelation: the real part of coefficient·e^{pole·τ}, τ >= 0, Re pole < 0. */
export interface Decay {
  /** s². */
  readonly coefficient: Complex;
  /** 1/s. */
  readonly pole: Complex;
}

/**
 * The value R(τ) of an autocorrelation given as decays.
 *
 * @param decays - its terms
 * @param tau - lag; s, any sign
 * @returns s²
 */
export function autocorrelationAt(decays: readonly Decay[], tau: number): number {
  const lag = Math.abs(tau);
  let sum = 0;
  for (const { coefficient, pole } of decays) {
    const phase = pole.im * lag;
    sum +=
      Math.exp(pole.re * lag) *
      (coefficient.re * Math.cos(phase) - coefficient.im * Math.sin(phase));
  }
  return sum;
}
