import { cosTurns, exp, expm1, sinTurns } from "../../numeric/index.ts";
import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** The least and the greatest of something. */
export interface Range {
  readonly least: number;
  readonly greatest: number;
}

/** Points of a half cycle at which the charge is looked at. */
const points = 256;

/**
 * Within what limits the charge swings when the tone goes on for ever, for an amplitude of 1 V.
 *
 *   v' = (|sin ωt| − v)/τ, periodic solution in the driven half cycle, u = π/(ωτ):
 *   v(t) = (sin ωt − ωτ·cos ωt + 2ωτ·e^(−t/τ)/(1 − e^(−u)))/(1 + ω²τ²)
 *   half wave: the factor 2 becomes 1, and the charge only falls in the other half cycle
 *
 * @param carrierHz - frequency of the tone; Hz, > 0
 * @param timeConstant - τ; s, > 0
 * @param rectifier - full or half wave
 * @returns least and greatest charge, to a few parts in 10⁵ of the swing; V
 *
 * Source: the linear equation solved. Mean 2/π (full), 1/π (half): the mean of a rectified sine.
 */
export function steadyCharge(
  carrierHz: number,
  timeConstant: number,
  rectifier: "full" | "half",
): Range {
  const a = 2 * Math.PI * carrierHz * timeConstant;
  const u = Math.PI / a;
  const start = (rectifier === "full" ? 2 : 1) * (a / -expm1(-u));
  let least = Number.POSITIVE_INFINITY;
  let greatest = 0;
  for (let i = 0; i <= points; i++) {
    const turns = i / (2 * points);
    const free = start * exp((-u * i) / points);
    const charge = (sinTurns(turns) - a * cosTurns(turns) + free) / (1 + a * a);
    least = Math.min(least, charge);
    greatest = Math.max(greatest, charge);
  }
  return { least, greatest };
}

/** The most that a rectified sine of 1 V integrates to over a time, whatever its phase; V·s. */
function greatestIntegral(carrierHz: number, duration: number, rectifier: "full" | "half"): number {
  const omega = 2 * Math.PI * carrierHz;
  const cycle = (rectifier === "full" ? 0.5 : 1) / carrierHz;
  const whole = Math.floor(duration / cycle);
  const driven = Math.min(omega * (duration - whole * cycle), Math.PI);
  return (2 * whole + 2 * sinTurns(driven / (4 * Math.PI))) / omega;
}

/**
 * The highest charge that bursts of a given amplitude can bring about, noise apart: an upper bound,
 * over every phase of the tone and with the charge that earlier bursts have left.
 *
 *   leak: at the end of a burst v ≤ (v_max − v_min·e^(−b/τ))/(1 − e^(−P/τ)), b burst, P its period
 *   no leak: A/τ times the most the rectified tone can integrate to in a burst
 *
 * @param tone - tone and burst
 * @param receiver - rectifier, time constant, leak
 * @param amplitudeV - peak amplitude; V
 * @param period - time from burst to burst; s, > the length of a burst
 * @returns the bound; V
 *
 * Source: superposition of the steady swing (`steadyCharge`) and a decaying exponential.
 */
export function highestCharge(
  tone: Pick<ReceivedTone, "carrierHz" | "burst">,
  receiver: ReceiverParameters,
  amplitudeV: number,
  period: number,
): number {
  const { carrierHz, burst } = tone;
  const { timeConstant, rectifier, leak } = receiver;
  if (!leak) {
    return (amplitudeV * greatestIntegral(carrierHz, burst, rectifier)) / timeConstant;
  }
  const { least, greatest } = steadyCharge(carrierHz, timeConstant, rectifier);
  const built = greatest - least * exp(-burst / timeConstant);
  return amplitudeV * Math.min(greatest, built / -expm1(-period / timeConstant));
}
