import type { NoiseLevels } from "../../noise/index.ts";
import { finestScale } from "./finest-scale.ts";
import { type LoopEntry, loopEntries, loopInputs } from "./loop-inputs.ts";
import { loopGains } from "./loop-response.ts";
import { relaxationVariance, whiteVariance } from "./stationary-variance.ts";
import type { SynthesizerParameters } from "./synthesizer-parameters.ts";

/** Rms time error of a synthesizer's output about its reference's frequency noise, by cause; s. */
export interface RmsJitter {
  /** Noise of the loop's own oscillator, phase noise of its edges included. */
  readonly oscillator: number;
  /** White noise of the phase detector. */
  readonly phaseDetector: number;
  /** White PM and flicker PM of the reference, and white PM of the output, seen by the detector. */
  readonly detectedPhase: number;
  /** What the loop does not follow of the reference's frequency noise. */
  readonly referenceFrequency: number;
  /** Spurious lines. */
  readonly spurs: number;
  /** Root of the sum of the squares. */
  readonly total: number;
}

/**
 * Rms jitter of a synthesizer's edges about the accumulated frequency noise of its reference, by theory.
 *
 * Stationary variances of the linear loop: white FM of the oscillator q/(4ζω) with q = h₀/2, random-walk FM
 * q/(4ζω³), white time noise S·B_L at the detector, and those of each relaxation process of a flicker ladder.
 *
 * @param parameters - the synthesizer
 * @param referenceLevels - noise levels of its reference
 * @returns rms time errors by cause; s
 * @throws RangeError if a parameter makes no synthesizer
 *
 * Source: Gardner, Phaselock Techniques, ch. 6. Exact case: no noise gives 0.
 */
export function rmsJitter(
  parameters: SynthesizerParameters,
  referenceLevels: NoiseLevels,
): RmsJitter {
  const gains = loopGains(parameters.loop);
  const { proportional, integral } = gains;
  const scale = finestScale(Infinity, parameters.loop);
  const inputs = loopInputs(parameters, referenceLevels, scale);
  const entries = loopEntries(gains);

  const rateVariance = (ladder: typeof inputs.ownRate, entry: LoopEntry) => {
    const half = 0.5 * ladder.whiteLevel;
    let sum = whiteVariance(gains, { ee: half, ez: 0, zz: 0 }).ee;
    ladder.timeConstants.forEach((time, k) => {
      const diffusion = ladder.diffusions[k]!;
      sum +=
        time === Infinity
          ? whiteVariance(gains, { ee: 0, ez: 0, zz: diffusion }).ee
          : relaxationVariance(gains, time, 0.5 * diffusion * time, entry.onError, 0).covariance.ee;
    });
    return sum;
  };
  // Own flicker PM p is at the output beside the loop's answer to it: the variance of p − e.
  const phaseVariance = (ladder: typeof inputs.ownPhase, entry: LoopEntry, atOutput: 0 | 1) => {
    let sum = 0;
    for (const time of ladder.timeConstants) {
      const { covariance, errorInput } = relaxationVariance(
        gains,
        time,
        ladder.variance,
        entry.onError,
        entry.onIntegrator,
      );
      sum += covariance.ee + atOutput * (ladder.variance - 2 * errorInput);
    }
    return sum;
  };
  const detected = (density: number) =>
    whiteVariance(gains, {
      ee: 0.5 * proportional * proportional * density,
      ez: -0.5 * proportional * integral * density,
      zz: 0.5 * integral * integral * density,
    }).ee;

  const { whitePmRms } = parameters.noise;
  const oscillator =
    rateVariance(inputs.ownRate, entries.ownRate) +
    phaseVariance(inputs.ownPhase, entries.ownPhase, 1) +
    inputs.ownPhase.fastTimes.length * inputs.ownPhase.variance +
    whitePmRms * whitePmRms;
  const phaseDetector = detected(inputs.detectorDensity);
  const detectedPhase =
    detected(inputs.sampledDensity) +
    phaseVariance(inputs.referencePhase, entries.referencePhase, 0);
  const referenceFrequency = rateVariance(inputs.referenceRate, entries.referenceRate);
  let spurs = 0;
  for (const spur of parameters.spurs) {
    spurs += 0.5 * spur.timeAmplitude * spur.timeAmplitude;
  }
  return {
    oscillator: Math.sqrt(oscillator),
    phaseDetector: Math.sqrt(phaseDetector),
    detectedPhase: Math.sqrt(detectedPhase),
    referenceFrequency: Math.sqrt(referenceFrequency),
    spurs: Math.sqrt(spurs),
    total: Math.sqrt(oscillator + phaseDetector + detectedPhase + referenceFrequency + spurs),
  };
}
