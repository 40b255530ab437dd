import { z } from "zod";
import type { SynthesizerParameters } from "../stages/synthesizer/index.ts";
import { noiseSchema, noiseToJson, resolveNoise } from "./noise-section.ts";
import { nonNegative, positive } from "./quantity.ts";

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
export const synthesizerSchema = z
  .strictObject({
    output_hz: positive("The rate asked for; Hz"),
    setting_step_hz: nonNegative(
      "The step in which the rate can be set; Hz. 0: any rate can be set",
    ).default(0),
    loop: loopSchema,
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
export function resolveSynthesizer({
  output_hz,
  loop,
  noise,
  spurs,
  ...rest
}: z.output<typeof synthesizerSchema>): SynthesizerParameters {
  return {
    outputHz: output_hz,
    settingStepHz: rest.setting_step_hz,
    loop: {
      naturalHz: loop.natural_hz,
      damping: loop.damping,
      comparisonHz: loop.comparison_hz,
    },
    // Noise of the oscillator ends with the loop's comparison, not with the edges that are divided from it.
    noise: resolveNoise(noise, loop.comparison_hz),
    phaseDetectorWhite: rest.phase_detector_white_s_per_sqrt_hz,
    spurs: spurs.map((spur) => ({
      frequencyHz: spur.frequency_hz,
      timeAmplitude: spur.time_amplitude_s,
    })),
  };
}

/** The way back. */
export function synthesizerToJson({ loop, noise, ...rest }: SynthesizerParameters) {
  return {
    output_hz: rest.outputHz,
    setting_step_hz: rest.settingStepHz,
    loop: {
      natural_hz: loop.naturalHz,
      damping: loop.damping,
      comparison_hz: loop.comparisonHz,
    },
    noise: noiseToJson(noise),
    phase_detector_white_s_per_sqrt_hz: rest.phaseDetectorWhite,
    spurs: rest.spurs.map((spur) => ({
      frequency_hz: spur.frequencyHz,
      time_amplitude_s: spur.timeAmplitude,
    })),
  };
}
