import type { RandomStream } from "../../numeric/index.ts";
import type { ReceiverParameters } from "../../stages/receiver/index.ts";

/** How often a path is drawn before it is given up. */
const mostTries = 400;

/**
 * A path of the receiver's noise that goes with the step that was found: threshold reached at its moment, and
 * not before.
 *
 * With a leak the noise is a stationary Ornstein-Uhlenbeck process η with correlation time τ; pinned at T by
 * η(t) + (η_T − η(T))·e^{−(T − t)/τ}. Without a leak it is Brownian motion from zero, pinned by t/T. Paths that
 * reach the threshold earlier are thrown away, which leaves the law of the noise given the step.
 *
 * @param receiver - the receiver
 * @param time - moments; s, ascending from 0
 * @param mean - voltage without noise at each; V
 * @param step - index of the moment of the step; −1 for none
 * @param end - index one past the last moment at which a step could be
 * @param stream - deviates
 * @returns noise at each moment in V, or null where no such path was found in a few hundred
 *
 * Source: Gaussian conditioning of a Markov process, own derivation. Exact case: at the step mean + noise is the
 * threshold.
 */
export function noisePath(
  receiver: ReceiverParameters,
  time: Float64Array,
  mean: Float64Array,
  step: number,
  end: number,
  stream: RandomStream,
): Float64Array | null {
  const { noiseV, timeConstant, leak, thresholdV } = receiver;
  const noise = new Float64Array(time.length);
  if (noiseV === 0) return noise;
  const last = step >= 0 ? step : end - 1;
  for (let attempt = 0; attempt < mostTries; attempt++) {
    drawFree(noise, 0, last, time, receiver, stream);
    if (step >= 0) pin(noise, step, thresholdV - mean[step]!, time, timeConstant, leak);
    if (!staysBelow(noise, mean, step >= 0 ? step : end, thresholdV)) continue;
    drawFree(noise, last, time.length - 1, time, receiver, stream);
    return noise;
  }
  return null;
}

/** Draws the noise freely from moment `from` (kept, unless it is the first) to moment `to`. */
function drawFree(
  noise: Float64Array,
  from: number,
  to: number,
  time: Float64Array,
  receiver: ReceiverParameters,
  stream: RandomStream,
): void {
  const { noiseV, timeConstant, leak } = receiver;
  if (from === 0) noise[0] = leak ? noiseV * stream.normal() : 0;
  for (let i = from + 1; i <= to; i++) {
    const lapse = (time[i]! - time[i - 1]!) / timeConstant;
    const kept = leak ? Math.exp(-lapse) : 1;
    const fresh = leak ? -Math.expm1(-2 * lapse) : 2 * lapse;
    noise[i] = kept * noise[i - 1]! + noiseV * Math.sqrt(fresh) * stream.normal();
  }
}

function pin(
  noise: Float64Array,
  step: number,
  target: number,
  time: Float64Array,
  timeConstant: number,
  leak: boolean,
): void {
  const missing = target - noise[step]!;
  const at = time[step]!;
  for (let i = 0; i < step; i++) {
    noise[i]! += missing * (leak ? Math.exp((time[i]! - at) / timeConstant) : time[i]! / at);
  }
  noise[step] = target;
}

function staysBelow(
  noise: Float64Array,
  mean: Float64Array,
  end: number,
  threshold: number,
): boolean {
  for (let i = 0; i < end; i++) if (mean[i]! + noise[i]! >= threshold) return false;
  return true;
}
