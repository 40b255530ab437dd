import type { SynthesizerParameters } from "./synthesizer-parameters.ts";

/** The loop's natural frequency and damping. */
export type Loop = Pick<SynthesizerParameters["loop"], "naturalHz" | "damping">;

/** Gains of the loop filter: proportional 2ζω in 1/s and integral ω² in 1/s². */
export interface LoopGains {
  readonly proportional: number;
  readonly integral: number;
}

/**
 * Gains of a type-2 second-order loop.
 *
 *   K_p = 2ζω,  K_i = ω²,  ω = 2π·natural frequency
 *
 * @param loop - natural frequency in Hz and damping, both > 0
 * @returns K_p in 1/s and K_i in 1/s²
 * @throws RangeError if natural frequency or damping is not above 0
 *
 * Source: Gardner, Phaselock Techniques, ch. 2. Exact case: 1/2π Hz, ζ = ½ gives 1 and 1.
 */
export function loopGains(loop: Loop): LoopGains {
  if (!(loop.naturalHz > 0 && loop.naturalHz < Infinity)) {
    throw new RangeError(`loopGains: naturalHz must be > 0 Hz, got ${loop.naturalHz}`);
  }
  if (!(loop.damping > 0 && loop.damping < Infinity)) {
    throw new RangeError(`loopGains: damping must be > 0, got ${loop.damping}`);
  }
  const natural = 2 * Math.PI * loop.naturalHz;
  return { proportional: 2 * loop.damping * natural, integral: natural * natural };
}

/**
 * Noise bandwidth of a type-2 second-order loop.
 *
 *   B_L = ∫|H(f)|² df = (ω/2)·(ζ + 1/(4ζ))
 *
 * @param damping - ζ; dimensionless, > 0
 * @param natural - ω, angular natural frequency; 1/s, > 0
 * @returns B_L, one-sided; Hz
 *
 * Source: Gardner, Phaselock Techniques, ch. 6. Exact case: ζ = ½ gives ω/2, the least of all.
 */
export function loopNoiseBandwidth(damping: number, natural: number): number {
  return 0.5 * natural * (damping + 0.25 / damping);
}

/**
 * What the loop passes of its reference's noise.
 *
 *   |H|² = (ω⁴ + (2ζωΩ)²)/((ω² − Ω²)² + (2ζωΩ)²),  Ω = 2πf
 *
 * @param loop - natural frequency in Hz and damping
 * @param f - Fourier frequency; Hz, >= 0
 * @returns |H(f)|²; dimensionless
 *
 * Source: Gardner, Phaselock Techniques, ch. 2. Exact case: f = 0 gives 1.
 */
export function closedLoopResponse(loop: Loop, f: number): number {
  const r = f / loop.naturalHz;
  const damped = 4 * loop.damping * loop.damping * r * r;
  const tuned = 1 - r * r;
  return (1 + damped) / (tuned * tuned + damped);
}

/**
 * What the loop leaves of its own oscillator's noise.
 *
 *   |1 − H|² = Ω⁴/((ω² − Ω²)² + (2ζωΩ)²),  Ω = 2πf
 *
 * @param loop - natural frequency in Hz and damping
 * @param f - Fourier frequency; Hz, >= 0
 * @returns |1 − H(f)|²; dimensionless
 *
 * Source: Gardner, Phaselock Techniques, ch. 2. Exact case: f = 0 gives 0.
 */
export function errorResponse(loop: Loop, f: number): number {
  const r = f / loop.naturalHz;
  const s = r * r;
  const tuned = 1 - s;
  return (s * s) / (tuned * tuned + 4 * loop.damping * loop.damping * s);
}
