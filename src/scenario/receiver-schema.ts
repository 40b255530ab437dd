import { z } from "zod";
import { noiseSchema } from "./noise-schema.ts";
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
