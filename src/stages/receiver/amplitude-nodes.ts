import { exp } from "../../numeric/index.ts";
import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** Closest spacing: with less noise of its own the receiver's is a spread of the threshold, and the law needs no nodes. */
const closest = 1 / 32;

/** An amplitude that stands for those about it. */
export interface AmplitudeNode {
  /** A; V, > 0. */
  readonly amplitudeV: number;
  /** Its share of the bursts; what amplitudes below zero would have is missing from their sum. */
  readonly weight: number;
}

/**
 * Amplitudes over which to average what depends on the amplitude of a burst: the trapezoid rule, which for a
 * Gaussian converges geometrically.
 *
 * They are a standard deviation apart, or less where the noise alone would spread the delay by less. What is
 * averaged varies over θ's noise, s = noise_v/θ relative, and the rule errs by 2·exp(−2π²·v/spacing²), v the
 * share s²/(s² + relative²) of the noise in the spread: 1e-6 where both are equally large.
 *
 * @param receiver - the detector
 * @param tone - the tone
 * @param cut - where the Gaussian is cut off; standard deviations, > 0
 * @param finest - spacing at most, less than one where what is averaged varies faster than the noise; standard deviations
 * @returns the amplitudes, rising; one where it has no noise
 *
 * Source: trapezoid rule for analytic functions, Trefethen & Weideman, SIAM Review 56, 385 (2014).
 */
export function amplitudeNodes(
  receiver: ReceiverParameters,
  tone: ReceivedTone,
  cut: number,
  finest = 1,
): AmplitudeNode[] {
  const relative = tone.amplitudeNoise;
  const noise = receiver.noiseV / receiver.thresholdV;
  if (relative === 0) return [{ amplitudeV: tone.amplitudeV, weight: 1 }];
  const spacing = Math.min(finest, Math.max(closest, (1.2 * noise) / relative));
  const reach = Math.ceil(cut / spacing);
  const nodes: AmplitudeNode[] = [];
  let whole = 0;
  for (let k = -reach; k <= reach; k++) {
    const z = k * spacing;
    const amplitudeV = tone.amplitudeV * (1 + relative * z);
    const weight = exp(-0.5 * z * z);
    whole += weight;
    if (amplitudeV > 0) nodes.push({ amplitudeV, weight });
  }
  return nodes.map(({ amplitudeV, weight }) => ({ amplitudeV, weight: weight / whole }));
}
