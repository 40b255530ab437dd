import { log } from "../../numeric/index.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** What may be left of charge and noise, beside the noise that has come anew since: a thousandth of it. */
const leftBesideNoise = 1e-3;

/** What may be left of the charge in a receiver without noise, beside the threshold. */
const leftBesideThreshold = 1e-12;

/**
 * How long a silence must last for what was before it to vanish beside the receiver's noise.
 *
 * The charge, at most A, decays with the time constant to A·e^(−t/τ); noise from before is still in the
 * noise after it by e^(−t/τ), and so in the spectrum of the delays by twice that. Both are left out where
 * they are a thousandth at most (of the charge the spectrum is then a millionth):
 *
 *   t = τ·ln(1000·max(A/noise_v, 2));  without noise τ·ln(1e12·max(A/θ, 1))
 *
 * @param receiver - the detector
 * @param amplitude - A, peak of the tone before the silence; V, >= 0
 * @returns t; s, 0 without a leak, where charge and noise begin from zero in every burst
 *
 * Source: own derivation. Exact case: A = noise_v, τ = 1 s: ln 2000 = 7.6 s.
 */
export function timeToForget(receiver: ReceiverParameters, amplitude: number): number {
  const { leak, timeConstant, noiseV, thresholdV } = receiver;
  if (!leak) return 0;
  const worst =
    noiseV > 0
      ? Math.max(amplitude / noiseV, 2) / leftBesideNoise
      : Math.max(amplitude / thresholdV, 1) / leftBesideThreshold;
  return timeConstant * log(worst);
}
