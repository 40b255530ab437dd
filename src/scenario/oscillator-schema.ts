import { z } from "zod";
import { noiseSchema } from "./noise-schema.ts";
import { finite, fraction, nonNegative, positive } from "./quantity.ts";

/**
 * The temperature all oscillators stand in.
 *
 * Mean and turnover temperature have the same default, so that a scenario that says nothing of
 * temperature has none of its effects.
 */
export const environmentSchema = z
  .strictObject({
    mean_c: finite("Mean temperature at the start of the run; °C").default(25),
    daily_amplitude_k: nonNegative("Amplitude of the daily cycle; K").default(0),
    daily_peak_s: finite("When the daily cycle peaks, after the start of the run; s").default(0),
    ramp_k_per_day: finite("Steady drift of the mean temperature; K/day").default(0),
  })
  .meta({ description: "The temperature all oscillators stand in" });

const temperatureSchema = z
  .strictObject({
    linear_per_k: finite("Linear coefficient of the rate; 1/K").default(0),
    parabolic_per_k2: finite("Parabolic coefficient of the rate; 1/K²").default(0),
    turnover_c: finite("Temperature about which both are taken; °C").default(25),
  })
  .meta({ description: "How the rate follows the temperature" });

/** The reference oscillator at the head of the chain. */
export const referenceSchema = z
  .strictObject({
    nominal_hz: positive("Nominal frequency; Hz"),
    fractional_offset: fraction("Fractional frequency offset at the start; dimensionless").default(
      0,
    ),
    aging_per_day: finite("Ageing of the fractional frequency; 1/day").default(0),
    temperature: temperatureSchema.prefault({}),
    noise: noiseSchema.prefault({}),
  })
  .meta({ description: "The reference oscillator at the head of the chain" });
