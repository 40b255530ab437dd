import { chooseRecording } from "../chain/index.ts";
import type { Recording, Scenario, Warning } from "../scenario/index.ts";
import { type Beat, beats, toneHz } from "../stages/drive/index.ts";
import { explainedRate, timeResolution } from "../stages/oscillator/index.ts";
import {
  type DelayLaw,
  type DriveMargin,
  delaySwing,
  driveMargin,
} from "../stages/receiver/index.ts";
import {
  loopNoiseBandwidth,
  type RmsJitter,
  rmsJitter,
  type Setting,
  settingOf,
} from "../stages/synthesizer/index.ts";
import { budget } from "./budget.ts";
import { delayByPhase, detectionDelay } from "./detection-delay.ts";
import { raceWarning } from "./gate-race.ts";
import { type LeftOutGroup, leftOutOf } from "./left-out-of.ts";
import { noNoise } from "./no-noise.ts";

/** A slow swing between tone and rate, with what it does to the delay. */
export interface Swing extends Beat {
  /** How far the mean delay swings to either side, by its fundamental; s. */
  readonly delayAmplitude: number;
}

/** What follows from a scenario, by theory and quadrature alone. */
export interface ChainCheck {
  /** Nominal period of the tick; s. */
  readonly tickPeriod: number;
  readonly burstsPerTick: number | null;
  readonly recording: Recording;
  readonly setting: Setting | null;
  readonly loop: {
    readonly naturalHz: number;
    readonly damping: number;
    /** One-sided noise bandwidth; Hz. */
    readonly noiseBandwidthHz: number;
    readonly jitter: RmsJitter;
  } | null;
  /** Delay from the start of a burst to its step, given that there is one, and how many bursts make none. */
  readonly detection: Pick<
    DelayLaw,
    "meanDelay" | "rmsDelay" | "missProbability" | "blockedProbability"
  > | null;
  readonly margin: DriveMargin | null;
  /** Slow swings between tone and rate; none for a locked tone. */
  readonly beats: readonly Swing[];
  /** Rms of a single reading about the source's own rate; dimensionless. */
  readonly readingRms: number;
  /** Significant digits of one reading that mean something: −log10 of its relative rms; null where nothing tells. */
  readonly digits: number | null;
  /** Resolution that the representation of time leaves at the end of the run; s. */
  readonly timeResolution: number;
  /** Noise that the simulation does without inside the loop. */
  readonly leftOut: readonly LeftOutGroup[];
  readonly warnings: readonly Warning[];
}

/**
 * What follows from a scenario: set rate, loop, detection, drive margin, beats, digits to expect.
 *
 * @param scenario - the scenario
 * @param warnings - those of the parser, to which what theory finds is added
 * @throws RangeError if the tone is too slow for the detector's time constant
 *
 * Sources: those of the stages; digits: GUM 7.2.6.
 */
export function checkChain(scenario: Scenario, warnings: readonly Warning[]): ChainCheck {
  const { clock, synthesizer, drive, receiver, reference } = scenario;
  const hasBursts = synthesizer !== null && drive !== null && receiver !== null;
  const neededHz = hasBursts ? clock.tickHz * clock.stepsPerTick : undefined;
  const setting = synthesizer && settingOf(synthesizer, neededHz);
  const detection = hasBursts ? detectionDelay(scenario) : null;
  const { totalRandomRms: readingRms, race } = budget(scenario);
  const found: Warning[] = [...warnings, ...noNoise(scenario, readingRms)];
  if (race !== null) found.push(raceWarning(race));
  if (detection !== null) warnOfDetection(scenario, detection, found);
  const { length } = scenario;
  return {
    tickPeriod: 1 / clock.tickHz,
    burstsPerTick: hasBursts ? clock.stepsPerTick : null,
    recording: chooseRecording(scenario, length, null, { ticks: false, bursts: false }).recording,
    setting,
    loop: synthesizer && {
      naturalHz: synthesizer.loop.naturalHz,
      damping: synthesizer.loop.damping,
      noiseBandwidthHz: loopNoiseBandwidth(
        synthesizer.loop.damping,
        2 * Math.PI * synthesizer.loop.naturalHz,
      ),
      jitter: rmsJitter(synthesizer, reference.noise),
    },
    detection,
    margin:
      hasBursts && detection!.missProbability < 1e-6
        ? driveMargin(receiver, drive, 1 / setting!.setHz)
        : null,
    beats: hasBursts && drive.carrierLock === "free" ? swings(scenario, setting!.setHz) : [],
    readingRms,
    digits: readingRms > 0 ? Math.max(0, Math.floor(-Math.log10(readingRms))) : null,
    timeResolution: timeResolution(scenario),
    leftOut: leftOutOf(scenario),
    warnings: found,
  };
}

/** Swings of the mean delay, smeared by the timing noise of the edges. */
function swings(scenario: Scenario, setHz: number): Swing[] {
  const { drive, receiver, synthesizer, reference } = scenario;
  // A full-wave rectifier doubles the tone.
  const times = receiver!.rectifier === "full" ? 2 : 1;
  const tone = toneHz(drive!);
  const { mean } = delayByPhase(scenario)!;
  const jitter = 2 * Math.PI * tone * rmsJitter(synthesizer!, reference.noise).total;
  return beats(times * tone, setHz * (1 + explainedRate(scenario))).map((beat) => {
    const harmonic = times * beat.q;
    const kept = Math.exp(-((harmonic * jitter) ** 2) / 2);
    return { ...beat, delayAmplitude: delaySwing(mean, harmonic) * kept };
  });
}

function warnOfDetection(scenario: Scenario, detection: DelayLaw, found: Warning[]): void {
  const { missProbability, blockedProbability } = detection;
  const percentOf = (probability: number) => Number((100 * probability).toPrecision(2));
  if (missProbability >= 1e-6) {
    found.push({
      code: "bursts_missed",
      path: "receiver.threshold_v",
      message: `is so high that ${percentOf(missProbability)} % of the bursts are missed: each costs the clock a step`,
    });
  }
  if (blockedProbability >= 1e-6) {
    found.push({
      code: "bursts_blocked",
      path: "receiver.time_constant_s",
      message: `is so long that ${percentOf(blockedProbability)} % of the bursts begin with the threshold still exceeded and make no step: each costs the clock a step`,
    });
  }
  if (missProbability >= 1e-12) {
    found.push({
      code: "burst_by_burst",
      path: "receiver",
      message:
        "may miss a burst, and the probability has no closed form: the run goes burst by burst " +
        "whatever the recording mode",
    });
  }
  const rate = scenario.receiver!.extraStepRateHz;
  if (rate > 0) {
    found.push({
      code: "extra_steps",
      path: "receiver.extra_step_rate_hz",
      message: `gives about ${Number((rate * 86400).toPrecision(2))} extra steps a day, which no averaging removes`,
    });
  }
}
