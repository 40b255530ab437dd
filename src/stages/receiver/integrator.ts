import { burstLength, type ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** Time constants in terms of bursts that stand for no leak at all: a charge then loses a part in 60 000 in a burst. */
const asGoodAsNone = 3e4;

/**
 * The circuit v' = (G·A·r − v)/τ with its noise, as all of the receiver computes it.
 *
 * A receiver without a leak is one whose time constant is far longer than a burst, with its gain and noise raised so
 * that the charge comes in as it would, τ'/τ = G:
 *
 *   v' = A·r/τ ≈ (G·A·r − v)/τ',  variance 2·noise²·t/τ ≈ G·noise²·(1 − e^(−2t/τ'))
 */
export interface Integrator {
  /** τ; s. */
  readonly timeConstant: number;
  /** G, on the amplitude of the tone; 1 with a leak. */
  readonly gain: number;
  /** rms of the noise once it has settled; V. */
  readonly noise: number;
  /** Whether charge and noise outlast a burst; else each begins from zero. */
  readonly keeps: boolean;
}

/**
 * @param receiver - the detector
 * @param tone - the tone it is made for
 * @returns the circuit that stands for it
 */
export function integratorOf(receiver: ReceiverParameters, tone: ReceivedTone): Integrator {
  const { leak, timeConstant, noiseV } = receiver;
  if (leak) return { timeConstant, gain: 1, noise: noiseV, keeps: true };
  const slow = asGoodAsNone * burstLength(tone);
  const gain = slow / timeConstant;
  return { timeConstant: slow, gain, noise: noiseV * Math.sqrt(gain), keeps: false };
}
