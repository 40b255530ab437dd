import type { DriveParameters } from "../stages/drive/index.ts";
import { highestCharge, type ReceiverParameters } from "../stages/receiver/index.ts";
import { setFrequency } from "../stages/synthesizer/index.ts";
import type { Scenario } from "./scenario.ts";
import type { SenseReport } from "./sense-report.ts";

/** So many standard deviations of amplitude and noise may help the charge over the threshold. */
const deviations = 5;
/** Fewer cycles of the tone than this in a burst, and where the tone stands decides nearly all. */
const fewCycles = 3;
/**
 * Above this a part under alternating voltage can be dangerous to touch even in the dry; V rms.
 *
 * IEC 61140 and IEC 60364-4-41 (from memory): extra-low voltage ends at 50 V rms; protection against
 * touch can be left out up to 25 V rms.
 */
const touchVoltage = 25;

/** The detector's solution holds while a half wave (a wave, by half) lasts at most so many time constants. */
const mostTimeConstants = 100;
/** More cycles of the tone than this in a burst would take more time and memory than anyone has. */
const mostCycles = 1e6;
/** More bursts than this under one time constant, likewise: no burst could be told from the next. */
const mostBursts = 1000;

const short = (value: number) => String(Number(value.toPrecision(3)));

/** Whether tone, time constant and bursts are of sizes that the detector can be computed for. */
function senseOfTone(
  drive: DriveParameters,
  receiver: ReceiverParameters,
  period: number,
  report: SenseReport,
): boolean {
  const carrierHz = drive.carrierHz * (1 + drive.carrierFractionalOffset);
  const { timeConstant, rectifier, leak } = receiver;
  const wave = (rectifier === "full" ? 0.5 : 1) / carrierHz;
  const isSlow = wave > mostTimeConstants * timeConstant;
  if (isSlow) {
    report.fault(
      ["drive", "carrier_hz"],
      `gives a rectified tone with a period of ${short(wave)} s, more than ${mostTimeConstants} time constants of the receiver`,
      "raise it, or raise receiver.time_constant_s",
    );
  }
  const cycles = carrierHz * drive.burst;
  const isFast = cycles > mostCycles;
  if (isFast) {
    report.fault(
      ["drive", "carrier_hz"],
      `puts ${short(cycles)} cycles into a burst, more than ${mostCycles}`,
      "lower it, or shorten drive.burst_s",
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
  return !isSlow && !isFast && !isSluggish;
}

/**
 * Checks drive, receiver and fallback: can a burst bring about a step, one step, and in time?
 *
 * @param scenario - a resolved scenario
 * @param report - where findings go
 */
export function senseOfDrive(scenario: Scenario, report: SenseReport): void {
  const { synthesizer, drive, receiver, clock } = scenario;
  if (synthesizer === null || drive === null || receiver === null) return;
  const { outputHz, settingStepHz } = synthesizer;
  // A step so coarse that the setting is 0 is a fault of the synthesizer, told there.
  if (outputHz < settingStepHz / 2) return;
  const period = 1 / setFrequency(outputHz, settingStepHz);

  const [rise = 0, burst = 0] = drive.envelope.slice(1).map(({ at }) => at);
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
  if (!senseOfTone(drive, receiver, period, report)) return;
  const { thresholdV, noiseV, timeConstant, leak } = receiver;
  const noiseAtEnd = leak ? noiseV : noiseV * Math.sqrt((2 * drive.burst) / timeConstant);
  const usual = highestCharge(receiver, drive, period);
  const best = usual * (1 + deviations * drive.amplitudeNoise) + deviations * noiseAtEnd;
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
  const left = usual * Math.exp(-(period - drive.burst) / timeConstant);
  if (leak && left >= thresholdV) {
    report.warn(
      "bursts_blocked",
      ["receiver", "time_constant_s"],
      `is so long that ${short(left)} V can be left when the next burst begins, above the threshold: that burst makes no step`,
    );
  }
  const cycles = drive.carrierHz * drive.burst;
  if (cycles < fewCycles) {
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
  if (clock.fallback !== null && clock.fallback.after <= period) {
    report.fault(
      ["receiver", "fallback", "after_s"],
      `is not longer than the ${short(period)} s from burst to burst, so the drive would never be heard`,
      "raise it to more than the time from burst to burst",
    );
  }
}
