import { z } from "zod";
import { burstEnvelope, type DriveParameters } from "../stages/drive/index.ts";
import { fraction, positive, probability } from "./quantity.ts";

/** Bursts of a tone, one opened by each edge of the synthesizer. */
export const driveSchema = z
  .strictObject({
    carrier_hz: positive("Frequency of the tone; Hz"),
    carrier_fractional_offset: fraction(
      "How far a free tone is off its nominal frequency; dimensionless",
    ).default(0),
    carrier_lock: z
      .enum(["free", "locked"])
      .meta({ description: "free: the tone runs on; locked: every burst begins at phase zero" })
      .default("free"),
    burst_s: positive("Length of a burst; s"),
    rise_s: z
      .number()
      .min(0)
      .meta({
        description:
          "The amplitude rises evenly over this time from the edge, and falls as long after the burst; s",
      })
      .default(0),
    amplitude_v: positive("Peak amplitude of the tone at the receiver; V"),
    amplitude_noise: z
      .number()
      .min(0)
      .lt(1)
      .meta({ description: "Relative rms of the amplitude, one draw a burst; dimensionless" })
      .default(0),
    drop_probability: probability("Probability that a burst does not arrive at all").default(0),
  })
  .meta({ description: "Bursts of a tone, one opened by each edge of the synthesizer" });

/** The drive section in the terms of the program. */
export function resolveDrive(drive: z.output<typeof driveSchema>): DriveParameters {
  return {
    carrierHz: drive.carrier_hz,
    carrierFractionalOffset: drive.carrier_fractional_offset,
    carrierLock: drive.carrier_lock,
    burst: drive.burst_s + drive.rise_s,
    envelope: burstEnvelope(drive.burst_s, drive.rise_s),
    amplitudeV: drive.amplitude_v,
    amplitudeNoise: drive.amplitude_noise,
    dropProbability: drive.drop_probability,
  };
}

/** The way back. */
export function driveToJson(drive: DriveParameters) {
  return {
    carrier_hz: drive.carrierHz,
    carrier_fractional_offset: drive.carrierFractionalOffset,
    carrier_lock: drive.carrierLock,
    burst_s: drive.envelope[2]!.at,
    rise_s: drive.envelope[1]!.at,
    amplitude_v: drive.amplitudeV,
    amplitude_noise: drive.amplitudeNoise,
    drop_probability: drive.dropProbability,
  };
}
