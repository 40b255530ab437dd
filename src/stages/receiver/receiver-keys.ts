import { z } from "zod";
import { inTerms, nonNegative, positive, type SenseReport, short } from "../../keys/index.ts";
import { exp } from "../../numeric/index.ts";
import { highestCharge } from "./highest-charge.ts";
import { burstLength, type DrivenTone } from "./received-tone.ts";
import type { ReceiverParameters } from "./receiver-parameters.ts";

/** So many standard deviations of amplitude and noise may help the charge over the threshold. */
const deviations = 5;
/** The detector's solution holds while a half wave (a wave, by half) lasts at most so many time constants. */
const mostTimeConstants = 100;
/** More bursts than this under one time constant, and no burst could be told from the next. */
const mostBursts = 1000;

/** The detector in the clock. Its section holds keys of the clock too (`stepKeys` of the clock). */
const receiverSchema = z
  .strictObject({
    rectifier: z
      .enum(["full", "half"])
      .meta({ description: "Full-wave or half-wave rectifier" })
      .default("full"),
    time_constant_s: positive("Integration time constant; s"),
    leak: z
      .boolean()
      .meta({ description: "false: an ideal integrator, empty at the start of every burst" })
      .default(true),
    threshold_v: positive("Threshold at which the clock steps; V"),
    noise_v: nonNegative("rms noise added to the charge; V").default(0),
    extra_step_rate_hz: nonNegative("Mean rate of extra steps; Hz").default(0),
  })
  .meta({ description: "The detector in the clock: a rectifier, an integrator, a threshold" });

/**
 * Checks the receiver: can a burst bring about a step, and one step?
 *
 * @param receiver - the receiver
 * @param tone - tone and bursts it hears
 * @param period - time from burst to burst; s
 * @param report - where findings go
 */
function senseOfReceiver(
  receiver: ReceiverParameters,
  tone: DrivenTone,
  period: number,
  report: SenseReport,
): void {
  // Told of the drive.
  const burst = burstLength(tone);
  if (burst >= period) return;
  const { thresholdV, noiseV, timeConstant, leak } = receiver;
  const wave =
    (receiver.rectifier === "full" ? 0.5 : 1) /
    (tone.carrierHz * (1 + tone.carrierFractionalOffset));
  const isSlow = wave > mostTimeConstants * timeConstant;
  if (isSlow) {
    report.fault(
      ["drive", "carrier_hz"],
      `gives a rectified tone with a period of ${short(wave)} s, more than ${mostTimeConstants} time constants of the receiver`,
      "raise it, or raise receiver.time_constant_s",
    );
  }
  const isSluggish = leak && timeConstant > mostBursts * period;
  if (isSluggish) {
    report.fault(
      ["receiver", "time_constant_s"],
      `is longer than ${mostBursts} times the ${short(period)} s from burst to burst`,
      "shorten it, or set receiver.leak to false",
    );
  }
  if (isSlow || isSluggish) return;
  const noiseAtEnd = leak ? noiseV : noiseV * Math.sqrt((2 * burst) / timeConstant);
  const usual = highestCharge(receiver, tone, period);
  const best = usual * (1 + deviations * tone.amplitudeNoise) + deviations * noiseAtEnd;
  if (best < thresholdV) {
    report.fault(
      ["receiver", "threshold_v"],
      `cannot be reached: a burst brings at most ${short(usual)} V, and ${short(best)} V with ${deviations} standard deviations of amplitude and noise`,
      "lower it, or raise drive.amplitude_v or drive.burst_s",
    );
  } else if (usual < thresholdV) {
    report.warn(
      "threshold_marginal",
      ["receiver", "threshold_v"],
      `only noise lifts a burst over it: without noise a burst brings at most ${short(usual)} V`,
    );
  }
  const left = usual * exp(-(period - burst) / timeConstant);
  if (leak && left >= thresholdV) {
    report.warn(
      "bursts_blocked",
      ["receiver", "time_constant_s"],
      `is so long that ${short(left)} V can be left when the next burst begins, above the threshold: that burst makes no step`,
    );
  }
}

/** What the receiver says of its section. */
export const receiverKeys = {
  schema: receiverSchema,
  /** Of the whole section, in which keys of the clock stand too. */
  resolve: (receiver: z.output<typeof receiverSchema>): ReceiverParameters =>
    inTerms(receiverSchema.strip().parse(receiver)),
  sense: senseOfReceiver,
};
