import { z } from "zod";
import {
  inTerms,
  likeSchema,
  noiseSchema,
  nonNegative,
  positive,
  resolveNoise,
  type SenseReport,
  senseOfNoise,
  short,
} from "../../keys/index.ts";
import { loopNoiseBandwidth } from "./loop-response.ts";
import { setFrequency } from "./set-frequency.ts";
import type { SynthesizerParameters } from "./synthesizer-parameters.ts";

const secondsPerDay = 86400;
/** Relative difference that is rounding of the numbers in a file, not intent. */
const rounding = 1e-12;
/** The loop is modelled as continuous: it must compare at so many times its noise bandwidth. */
const comparisonsPerBandwidth = 20;

const loopSchema = z
  .strictObject({
    natural_hz: positive("Natural frequency of the loop, ω/2π; Hz"),
    damping: positive("Damping factor ζ; dimensionless"),
    comparison_hz: positive("Rate at which the phase detector compares; Hz").default(1e5),
  })
  .meta({ description: "The type-2 second-order phase-locked loop" });

const spurSchema = z
  .strictObject({
    frequency_hz: positive("Frequency of the line; Hz"),
    time_amplitude_s: nonNegative("Amplitude in time error; s"),
  })
  .meta({ description: "A spurious line: a sinusoid in time error, of random phase" });

/** The phase-locked synthesizer that makes a slow rate from the reference. */
const synthesizerSchema = z
  .strictObject({
    output_hz: positive("The frequency asked for; Hz"),
    setting_step_hz: nonNegative(
      "The step in which the rate can be set; Hz. 0: any rate can be set",
    ).default(0),
    loop: loopSchema,
    like: likeSchema,
    noise: noiseSchema
      .meta({ description: "Noise of the loop's own oscillator, running free" })
      .prefault({}),
    phase_detector_white_s_per_sqrt_hz: nonNegative(
      "White time noise of the phase detector; s/√Hz",
    ).default(0),
    spurs: z.array(spurSchema).meta({ description: "Spurious lines" }).default([]),
  })
  .meta({ description: "The phase-locked synthesizer that makes a slow rate from the reference" });

/** The synthesizer section in the terms of the program. */
function resolveSynthesizer(
  { noise, ...rest }: z.output<typeof synthesizerSchema>,
  report: SenseReport,
): SynthesizerParameters {
  // Noise of the oscillator ends with the loop's comparison, not with the edges that are divided from it.
  const levels = resolveNoise(noise, rest.loop.comparison_hz, ["synthesizer", "noise"], report);
  return { ...inTerms(rest), noise: levels };
}

/** The steps that a synthesizer should make the clock take. */
interface WantedSteps {
  readonly stepsPerTick: number;
  readonly tickHz: number;
}

/**
 * Checks the synthesizer: its setting against the rate of the clock, its loop against the rate at
 * which it compares, its noise.
 *
 * @param synthesizer - the synthesizer
 * @param wanted - what it drives; null where it drives nothing
 * @param length - of the run; s
 * @param report - where findings go
 */
function senseOfSynthesizer(
  synthesizer: SynthesizerParameters,
  wanted: WantedSteps | null,
  length: number,
  report: SenseReport,
): void {
  const { outputHz, settingStepHz: step, loop, noise } = synthesizer;
  // Slower than the loop the synthesizer follows the reference.
  const longest = Math.min(length, 1 / loop.naturalHz);
  senseOfNoise(noise, [1 / outputHz, longest], ["synthesizer", "noise"], report);
  if (outputHz < step / 2) {
    report.fault(
      ["synthesizer", "setting_step_hz"],
      `is so coarse that the nearest setting to ${outputHz} Hz is 0`,
      "make it finer, or 0 for any rate",
    );
    return;
  }
  if (wanted !== null) {
    const wantedHz = wanted.stepsPerTick * wanted.tickHz;
    const perDay = (setFrequency(outputHz, step) / wantedHz - 1) * secondsPerDay;
    if (Math.abs(outputHz - wantedHz) > Math.max(step, wantedHz * rounding)) {
      report.warn(
        "setting_mismatch",
        ["synthesizer", "output_hz"],
        `is not ${wanted.stepsPerTick} × tick_hz = ${Number(wantedHz.toPrecision(13))} Hz: the clock will ${perDay > 0 ? "gain" : "lose"} ${short(Math.abs(perDay))} s a day`,
      );
    }
  }
  const bandwidth = loopNoiseBandwidth(loop.damping, 2 * Math.PI * loop.naturalHz);
  const least = comparisonsPerBandwidth * bandwidth;
  if (loop.comparisonHz < least) {
    report.warn(
      "slow_comparison",
      ["synthesizer", "loop", "comparison_hz"],
      `is below ${comparisonsPerBandwidth} times the noise bandwidth of the loop, ${short(least)} Hz: the continuous model of the loop is then only rough`,
    );
  }
}

/** What the synthesizer says of its section. */
export const synthesizerKeys = {
  schema: synthesizerSchema,
  resolve: resolveSynthesizer,
  sense: senseOfSynthesizer,
};
