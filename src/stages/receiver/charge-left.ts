import { exp, log } from "../../numeric/index.ts";
import { BurstCharge } from "./burst-charge.ts";
import { burstLength, type DrivenTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** What may be left of charge and noise, beside the noise that has come anew since: a thousandth of it. */
const leftBesideNoise = 1e-3;

/** What may be left of the charge in a receiver without noise, beside the threshold. */
const leftBesideThreshold = 1e-12;

/** Phases at which what one burst leaves is known, straight between them. */
const phases = 128;

/** Bursts before the last whose part in the charge counts: what is left of them. */
const negligible = 1e-9;

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

/** Charge that the bursts before have left where one begins, for an amplitude of 1 V: a Gaussian, nearly. */
export interface ChargeLeft {
  /** Its mean; V/V. */
  readonly mean: number;
  /** Its variance, from the amplitudes of the bursts and from those dropped; (V/V)². */
  readonly variance: number;
}

/**
 * The charge left by all bursts before one, which has nothing to do with whether they made steps: the receiver does
 * not discharge at a step, so that each has added what it would have added to an empty one.
 *
 *   Σ Aₖ·M(φ − k·advance)·e^(−(k·P − b)/τ), k = 1, 2, …;  Aₖ independent, 0 for those dropped
 *
 * @param receiver - the detector
 * @param tone - the tone
 * @param burstPeriod - P, from burst to burst; s, Infinity for a burst after a long silence
 * @returns mean and variance of that charge, by phase of the tone at the start of the burst (turns)
 *
 * Source: superposition, the circuit being linear. Exact case: a locked tone without amplitude noise, geometric:
 * M·e^(−(P − b)/τ)/(1 − e^(−P/τ)).
 */
export function chargeLeft(
  receiver: ReceiverParameters,
  tone: DrivenTone,
  burstPeriod: number,
): (phaseTurns: number) => ChargeLeft {
  if (!receiver.leak || burstPeriod === Number.POSITIVE_INFINITY) {
    return () => ({ mean: 0, variance: 0 });
  }
  const charge = new BurstCharge(receiver, tone);
  const { timeConstant } = receiver;
  const silence = exp(-(burstPeriod - burstLength(tone)) / timeConstant);
  const decay = exp(-burstPeriod / timeConstant);
  const isFree = tone.carrierLock === "free";
  const bursts = Float64Array.from({ length: isFree ? phases + 1 : 1 }, (_, k) => {
    charge.place(k / phases);
    return charge.atEnd;
  });
  const turns = isFree ? tone.carrierHz * (1 + tone.carrierFractionalOffset) * burstPeriod : 0;
  const advance = turns - Math.floor(turns);
  const arrives = 1 - tone.dropProbability;
  const spread = arrives * (tone.amplitudeNoise * tone.amplitudeNoise + tone.dropProbability);
  return (phaseTurns) => {
    let mean = 0;
    let variance = 0;
    let phase = phaseTurns;
    for (let left = silence; left > negligible * silence; left *= decay) {
      phase -= advance;
      phase -= Math.floor(phase);
      const place = isFree ? phase * phases : 0;
      const below = Math.floor(place);
      const part = place - below;
      const one = bursts[below]! + (part > 0 ? part * (bursts[below + 1]! - bursts[below]!) : 0);
      mean += arrives * one * left;
      variance += spread * one * one * left * left;
    }
    return { mean, variance };
  };
}
