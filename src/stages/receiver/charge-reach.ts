import type { ReceivedTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";
import { RectifiedTone } from "./rectified-tone.ts";

/** Positions in a period at which the charge is looked at. */
const points = 128;

/**
 * The highest charge that one burst brings about in an empty receiver, per volt of tone.
 *
 *   κ = max over the burst of ∫₀ᵗ r(s)·e^(−(t−s)/τ) ds/τ   (no leak: without the exponential)
 *
 * A burst of amplitude A reaches the threshold without noise where A·κ ≥ θ.
 *
 * @param receiver - the detector
 * @param tone - the tone and the burst
 * @param phaseTurns - phase of the tone at the start of the burst; turns, ≥ 0
 * @returns κ; V/V, to a few parts in 10⁴ of the ripple within a period
 * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
 *
 * Source: the circuit equation, integrated. Exact case: many periods and time constants, fast tone: 2/π
 * (full wave) or 1/π (half wave), the mean of a rectified sine.
 */
export function chargeReach(
  receiver: ReceiverParameters,
  tone: ReceivedTone,
  phaseTurns: number,
): number {
  const rectified = new RectifiedTone(
    receiver,
    tone.carrierHz * (1 + tone.carrierFractionalOffset),
  );
  const turns = phaseTurns * rectified.periodsPerCycle;
  const start = turns - Math.floor(turns);
  const periods = tone.burst / rectified.period;
  const charge = (at: number) => {
    const period = Math.floor(start + at);
    const x = start + at - period;
    const growth = rectified.growth(x);
    const response = rectified.response(x, growth);
    const first = rectified.growth(start);
    const before = rectified.response(start, first);
    if (!receiver.leak) return period * rectified.responsePerPeriod + response - before;
    // Steady response less what the empty start takes from it.
    const kept = rectified.growth(-at);
    return (rectified.settled + response) / growth - ((rectified.settled + before) / first) * kept;
  };
  // Peaks rise from period to period, so the highest is among the last two.
  let reach = charge(periods);
  const looked = Math.min(2, periods);
  for (let k = 0; k < 2 * points; k++) {
    reach = Math.max(reach, charge(periods - (looked * k) / (2 * points)));
  }
  return reach;
}
