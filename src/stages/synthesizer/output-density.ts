import type { NoiseLevels } from "../../noise/index.ts";
import { frequencyNoiseDensity } from "../../noise/index.ts";
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
  const { passed, left } = inputDensities(parameters, referenceLevels, f);
  const reference = referenceTime(referenceLevels, f);
  return (
    closedLoopResponse(parameters.loop, f) * (reference + passed) +
    errorResponse(parameters.loop, f) * left
  );
}

/**
 * The same of the time error about the reference's accumulated frequency noise: what a counter sees that has
 * the reference as its time base.
 *
 *   S_x = |H|²·(S_flicker PM,ref + S_detector) + |1 − H|²·(S_x,own + S_FM,ref)
 *
 * @param parameters - the synthesizer
 * @param referenceLevels - noise levels of its reference
 * @param f - Fourier frequency; Hz, > 0
 * @returns one-sided S_x; s²/Hz
 *
 * Source: as `outputDensity`. Exact case: a noiseless loop leaves |1 − H|² of its reference.
 */
export function densityAboutReference(
  parameters: SynthesizerParameters,
  referenceLevels: NoiseLevels,
  f: number,
): number {
  const { passed, left } = inputDensities(parameters, referenceLevels, f);
  const reference = referenceTime(referenceLevels, f);
  return (
    closedLoopResponse(parameters.loop, f) * passed +
    errorResponse(parameters.loop, f) * (reference + left)
  );
}

/** S_x of the reference's frequency noise. */
function referenceTime(levels: NoiseLevels, f: number): number {
  const w = 2 * Math.PI * f;
  return frequencyNoiseDensity(levels, f) / (w * w);
}

/** S_x before the loop: of time noise at the detector, and of the loop's own oscillator running free. */
function inputDensities(
  parameters: SynthesizerParameters,
  referenceLevels: NoiseLevels,
  f: number,
): { passed: number; left: number } {
  const { loop, noise, phaseDetectorWhite } = parameters;
  const w = 2 * Math.PI * f;
  const edges =
    referenceLevels.whitePmRms * referenceLevels.whitePmRms + noise.whitePmRms * noise.whitePmRms;
  const detector = phaseDetectorWhite * phaseDetectorWhite + (2 * edges) / loop.comparisonHz;
  const ownPhase = f > noise.bandwidthHz ? 0 : noise.h1 * f;
  return {
    passed: detector + (referenceLevels.h1 * f) / (w * w),
    left: (frequencyNoiseDensity(noise, f) + ownPhase) / (w * w),
  };
}
