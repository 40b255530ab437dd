import { exp } from "../../numeric/index.ts";
import { BurstCharge } from "./burst-charge.ts";
import { chargeLeft } from "./charge-left.ts";
import type { DrivenTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** Start phases looked at, and points at the end of each piece of a burst. */
const phases = 32;
const points = 128;

/** Charges are highest in the last periods of a piece, so many of them, or anywhere where the tone fades. */
const lastPeriods = 2;

/**
 * The highest charge that bursts of the usual amplitude bring about, noise apart, over every phase of the tone and with
 * the mean charge that earlier bursts have left.
 *
 * @param receiver - the detector
 * @param tone - the tone and the burst
 * @param burstPeriod - time from burst to burst; s, Infinity for a burst after a long silence
 * @returns the charge, to a few parts in 10⁴ of the ripple within a period; V
 * @throws RangeError if the period of the rectified tone exceeds a hundred time constants
 *
 * Source: the circuit equation, integrated. Exact case: many periods and time constants, fast tone: 2A/π
 * (full wave) or A/π (half wave), the mean of a rectified sine.
 */
export function highestCharge(
  receiver: ReceiverParameters,
  tone: DrivenTone,
  burstPeriod: number,
): number {
  const burst = new BurstCharge(receiver, tone);
  const left = chargeLeft(receiver, tone, burstPeriod);
  const { period, integrator } = burst.tone;
  const count = tone.carrierLock === "free" ? phases : 1;
  let highest = 0;
  for (let k = 0; k < count; k++) {
    const turns = k / count;
    burst.place(turns);
    const { mean } = left(turns);
    for (const { at, length, slope } of burst.pieces) {
      const looked = slope < 0 ? length : Math.min(length, lastPeriods * period);
      for (let point = 0; point < points; point++) {
        const time = at + length - (looked * point) / points;
        const charge = burst.at(time) + mean * exp(-time / integrator.timeConstant);
        highest = Math.max(highest, charge);
      }
    }
  }
  return tone.amplitudeV * highest;
}
