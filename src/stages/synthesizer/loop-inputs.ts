import type { NoiseLevels } from "../../noise/index.ts";
import { type PhaseLadder, phaseLadder, type RateLadder, rateLadder } from "../../noise/index.ts";
import { expm1 } from "../../numeric/index.ts";
import type { LoopGains } from "./loop-response.ts";
import type { SynthesizerParameters } from "./synthesizer-parameters.ts";

/** How a group of processes y enters the loop: e' = … + onError·y, z' = … + onIntegrator·y. */
export interface LoopEntry {
  readonly onError: number;
  readonly onIntegrator: number;
}

/**
 * Where the four groups of coloured noise enter the loop
 *
 *   e' = y_ref − y_own − K_p·(e + n) − z,  z' = K_i·(e + n)
 *
 * with e the reference's time error less the output's: the reference's frequency noise, its flicker PM as
 * part of n, the own oscillator's frequency noise, and its flicker PM as part of n with the other sign.
 *
 * @param gains - K_p in 1/s and K_i in 1/s²
 * @returns the entries; 1 for rates, 1/s and 1/s² for time errors
 *
 * Source: linear loop equations, Gardner, Phaselock Techniques. Exact case: a rate enters with ±1 and 0.
 */
export function loopEntries(gains: LoopGains): {
  referenceRate: LoopEntry;
  referencePhase: LoopEntry;
  ownRate: LoopEntry;
  ownPhase: LoopEntry;
} {
  return {
    referenceRate: { onError: 1, onIntegrator: 0 },
    referencePhase: { onError: -gains.proportional, onIntegrator: gains.integral },
    ownRate: { onError: -1, onIntegrator: 0 },
    ownPhase: { onError: gains.proportional, onIntegrator: -gains.integral },
  };
}

/** All that drives a loop, at the time scale on which it is looked at. */
export interface LoopInputs {
  readonly referenceRate: RateLadder;
  readonly referencePhase: PhaseLadder;
  readonly ownRate: RateLadder;
  readonly ownPhase: PhaseLadder;
  /** White time noise at the phase detector, one-sided S_x; s²/Hz: the detector's own. */
  readonly detectorDensity: number;
  /** The same, of what the detector samples: white PM and fastest flicker PM of reference and output. */
  readonly sampledDensity: number;
}

/**
 * What drives a loop: the noise of its reference, of its own oscillator and of its phase detector.
 *
 * Independent errors of σ a sample at f_c samples a second are, to a loop much slower, white time noise
 * with 2σ²/f_c. A relaxation process sampled every T_c is 2·v·T_c·coth(T_c/(2T)).
 *
 * @param parameters - the synthesizer
 * @param referenceLevels - noise levels of its reference
 * @param scale - shortest time over which the noise is looked at (`finestScale`); s, > 0
 * @param referenceScale - the same of the reference, where it is looked at more closely; s, > 0
 * @returns ladders and white densities
 * @throws RangeError if the comparison rate is not above 0, or as `relaxationLadder`
 *
 * Source: sampling theorem (folded spectrum); spectrum of a first-order autoregressive series.
 * Exact case: without any noise all densities are 0.
 */
export function loopInputs(
  parameters: SynthesizerParameters,
  referenceLevels: NoiseLevels,
  scale: number,
  referenceScale: number = scale,
): LoopInputs {
  const { comparisonHz } = parameters.loop;
  if (!(comparisonHz > 0 && comparisonHz < Infinity)) {
    throw new RangeError(`loopInputs: comparisonHz must be > 0 Hz, got ${comparisonHz}`);
  }
  const referencePhase = phaseLadder(referenceLevels, referenceScale);
  const ownPhase = phaseLadder(parameters.noise, scale);
  return {
    referenceRate: rateLadder(referenceLevels, referenceScale),
    referencePhase,
    ownRate: rateLadder(parameters.noise, scale),
    ownPhase,
    detectorDensity: parameters.phaseDetectorWhite * parameters.phaseDetectorWhite,
    sampledDensity:
      sampled(referenceLevels.whitePmRms, referencePhase, comparisonHz) +
      sampled(parameters.noise.whitePmRms, ownPhase, comparisonHz),
  };
}

/** One-sided density of white PM and fast flicker PM when sampled; s²/Hz. */
function sampled(whitePmRms: number, phase: PhaseLadder, comparisonHz: number): number {
  let density = (2 * whitePmRms * whitePmRms) / comparisonHz;
  for (const time of phase.fastTimes) {
    const decayed = expm1(-1 / (comparisonHz * time));
    density += ((2 * phase.variance) / comparisonHz) * ((2 + decayed) / -decayed);
  }
  return density;
}
