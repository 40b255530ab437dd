import { z } from "zod";
import type { ClockParameters } from "../stages/clock/index.ts";
import type { ReceiverParameters } from "../stages/receiver/index.ts";
import { noiseSchema, noiseToJson } from "./noise-section.ts";
import { count, fraction, nonNegative, positive } from "./quantity.ts";

const fallbackSchema = z
  .strictObject({
    after_s: positive("Silence after which the clock's own oscillator takes over; s"),
    fractional_offset: fraction(
      "Fractional frequency offset of that oscillator; dimensionless",
    ).default(0),
    noise: noiseSchema.prefault({}),
  })
  .meta({ description: "The clock's own oscillator, for when the drive fails" });

/** The detector in the clock, and the oscillator it falls back on. */
export const receiverSchema = z
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
    steps_per_tick: count("Steps that make a tick"),
    extra_step_rate_hz: nonNegative("Mean rate of extra steps; Hz").default(0),
    fallback: fallbackSchema.optional(),
  })
  .meta({ description: "The detector in the clock: a rectifier, an integrator, a threshold" });

/** The receiver section in the terms of the program, but for what it says of the clock (`resolveClock`). */
export function resolveReceiver(receiver: z.output<typeof receiverSchema>): ReceiverParameters {
  return {
    rectifier: receiver.rectifier,
    timeConstant: receiver.time_constant_s,
    leak: receiver.leak,
    thresholdV: receiver.threshold_v,
    noiseV: receiver.noise_v,
    extraStepRateHz: receiver.extra_step_rate_hz,
  };
}

/** The way back, with what the section says of the clock. */
export function receiverToJson(receiver: ReceiverParameters, clock: ClockParameters) {
  const { fallback } = clock;
  return {
    rectifier: receiver.rectifier,
    time_constant_s: receiver.timeConstant,
    leak: receiver.leak,
    threshold_v: receiver.thresholdV,
    noise_v: receiver.noiseV,
    steps_per_tick: clock.stepsPerTick,
    extra_step_rate_hz: receiver.extraStepRateHz,
    ...(fallback && {
      fallback: {
        after_s: fallback.after,
        fractional_offset: fallback.fractionalOffset,
        noise: noiseToJson(fallback.noise),
      },
    }),
  };
}
