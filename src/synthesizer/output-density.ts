import type { NoiseLevels } from "../noise/noise-levels.ts";
import { frequencyNoiseDensity } from "../noise/spectral-density.ts";
import { closedLoopResponse, errorResponse } from "./loop-response.ts";
import type { SynthesizerParameters } from "./synthesizer-parameters.ts";

/**
 * Spectral density of a synthesizer's time error by theory, without spurs and white PM of single edges.
 *
 *   S_x = |H|²·(S_x,ref + S_detector) + |1 − H|²·S_x,own
 *
 * with frequency noise and flicker PM of reference and own oscillator, and white PM of both as the phase
 * detector samples it, 2σ²/f_comparison.
 *
 * @param parameters - the synthesizer
 * @param referenceLevels - noise levels of its reference
 * @param f - Fourier frequency; Hz, > 0
 * @returns one-sided S_x; s²/Hz
 *
 * Source: Gardner, Phaselock Techniques, ch. 6. Exact case: a detector alone gives |H|² times its density.
 */
export function outputDensity(
  parameters: SynthesizerParameters,
  referenceLevels: NoiseLevels,
  f: number,
): number {
  const { loop, noise, phaseDetectorWhite } = parameters;
  const w = 2 * Math.PI * f;
  const edges =
    referenceLevels.whitePmRms * referenceLevels.whitePmRms + noise.whitePmRms * noise.whitePmRms;
  const detector = phaseDetectorWhite * phaseDetectorWhite + (2 * edges) / loop.comparisonHz;
  const reference = (frequencyNoiseDensity(referenceLevels, f) + referenceLevels.h1 * f) / (w * w);
  const own =
    (frequencyNoiseDensity(noise, f) + (f > noise.bandwidthHz ? 0 : noise.h1 * f)) / (w * w);
  return closedLoopResponse(loop, f) * (reference + detector) + errorResponse(loop, f) * own;
}
