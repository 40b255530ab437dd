import type { Loop } from "./loop-response.ts";

/**
 * Shortest time over which noise at the input of a loop is looked at: by the step, or by the loop.
 *
 *   min(step, 10/ω)
 *
 * Noise that counts as white below a thousandth of this has ωT < 0.01, and changes the loop's variance by
 * less than a ten-thousandth of what a flicker ladder gives.
 *
 * @param finestStep - smallest step the synthesizer is ever asked for; s, > 0
 * @param loop - natural frequency in Hz
 * @returns the scale to give to the noise of the reference and of the loop's own oscillator; s
 *
 * Source: own derivation. Exact case: a loop of 10/2π Hz and a step of 5 s give 1 s.
 */
export function finestScale(finestStep: number, loop: Loop): number {
  return Math.min(finestStep, 10 / (2 * Math.PI * loop.naturalHz));
}
