import { z } from "zod";
import {
  fraction,
  inTerms,
  nonNegative,
  positive,
  probability,
  type SenseReport,
  short,
} from "../../keys/index.ts";
import { burstEnvelope } from "./burst-envelope.ts";
import type { DriveParameters } from "./drive-parameters.ts";

/** Fewer cycles of the tone than this in a burst, and where the tone stands decides nearly all. */
const fewCycles = 3;
/** More cycles of the tone than this in a burst would take more time and memory than anyone has. */
const mostCycles = 1e6;
/**
 * Above this a part under alternating voltage can be dangerous to touch even in the dry; V rms.
 *
 * IEC 61140 and IEC 60364-4-41 (from memory): extra-low voltage ends at 50 V rms; protection against
 * touch can be left out up to 25 V rms.
 */
const touchVoltage = 25;

/** Bursts of a tone, one opened by each edge of the synthesizer. */
const driveSchema = z
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
    rise_s: nonNegative(
      "The amplitude rises evenly over this time from the edge, and falls as long after the burst; s",
    ).default(0),
    amplitude_v: positive("Peak amplitude of the tone at the receiver; V").optional(),
    amplitude_vrms: positive(
      "The amplitude in place of amplitude_v, as rms volts of the sine; V rms",
    ).optional(),
    amplitude_noise: z
      .number()
      .min(0)
      .lt(1)
      .meta({ description: "Relative rms of the amplitude, one draw a burst; dimensionless" })
      .default(0),
    drop_probability: probability("Probability that a burst does not arrive at all").default(0),
  })
  .meta({ description: "Bursts of a tone, one opened by each edge of the synthesizer" });

/**
 * Checks the drive: does a burst fit between two edges, with neither too few nor too many cycles of the tone?
 *
 * @param drive - the drive
 * @param period - time from burst to burst; s
 * @param report - where findings go
 */
function senseOfDrive(drive: DriveParameters, period: number, report: SenseReport): void {
  const { burst, rise } = asKeys(drive);
  if (burst >= period) {
    report.fault(
      ["drive", "burst_s"],
      `is as long as the ${short(period)} s from burst to burst, or longer`,
      "shorten it, or lower synthesizer.output_hz",
    );
    return;
  }
  if (rise > burst || drive.burst >= period) {
    report.fault(
      ["drive", "rise_s"],
      rise > burst
        ? `is longer than the ${short(burst)} s of a burst`
        : `lets a burst fall until ${short(drive.burst)} s after its edge, when the next has begun after ${short(period)} s`,
      "shorten it",
    );
    return;
  }
  const cycles = drive.carrierHz * burst;
  if (cycles > mostCycles) {
    report.fault(
      ["drive", "carrier_hz"],
      `puts ${short(cycles)} cycles into a burst, more than ${mostCycles}`,
      "lower it, or shorten drive.burst_s",
    );
  } else if (cycles < fewCycles) {
    report.warn(
      "few_carrier_cycles",
      ["drive", "carrier_hz"],
      `gives only ${short(cycles)} cycles a burst, so the delay depends on where the tone stands when the burst begins`,
    );
  }
  const rms = drive.amplitudeV / Math.SQRT2;
  if (rms > touchVoltage) {
    report.warn(
      "voltage_caution",
      ["drive", "amplitude_v"],
      `is ${short(rms)} V rms; above ${touchVoltage} V rms live parts can be dangerous to touch: on real equipment follow your local electrical code and leave the work to licensed people`,
    );
  }
}

function resolveDrive(drive: z.output<typeof driveSchema>, report: SenseReport): DriveParameters {
  const { burst, rise, amplitudeVrms, ...others } = inTerms(drive);
  const amplitudeV = others.amplitudeV ?? Math.SQRT2 * (amplitudeVrms ?? 1);
  if (others.amplitudeV === undefined && amplitudeVrms !== undefined) {
    report.derive(["drive", "amplitude_v"], amplitudeV, `√2 × ${amplitudeVrms} V rms, of a sine`);
  } else if (amplitudeVrms !== undefined) {
    report.fault(
      ["drive", "amplitude_vrms"],
      "states the same as amplitude_v",
      "keep one of the two",
    );
  } else if (others.amplitudeV === undefined) {
    report.fault(
      ["drive", "amplitude_v"],
      "is missing",
      "it is a number: Peak amplitude of the tone at the receiver; V. Or give amplitude_vrms",
    );
  }
  return { ...others, amplitudeV, burst: burst + rise, envelope: burstEnvelope(burst, rise) };
}

/** The way back: the times of the keys beside what the program has of them. */
function asKeys(drive: DriveParameters) {
  return { ...drive, burst: drive.envelope[2]!.at, rise: drive.envelope[1]!.at };
}

/** What the drive says of its section. */
export const driveKeys = {
  schema: driveSchema,
  resolve: resolveDrive,
  asKeys,
  sense: senseOfDrive,
};
