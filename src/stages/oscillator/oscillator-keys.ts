import { z } from "zod";
import {
  finite,
  fraction,
  noiseSchema,
  noiseToJson,
  nonNegative,
  positive,
  resolveNoise,
  type SenseReport,
  senseOfNoise,
  short,
} from "../../keys/index.ts";
import type { Environment, OscillatorParameters } from "./oscillator-parameters.ts";

/** A steady rate above this is no setting error of a clock but, most likely, of a unit. */
const largeRate = 1e-3;
/** Above this the rate no longer varies slowly, as the model of its course takes for granted. */
const largestRate = 0.1;
const secondsPerDay = 86400;

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

/** The environment section in the terms of the program. */
export function resolveEnvironment(environment: z.output<typeof environmentSchema>): Environment {
  return {
    meanC: environment.mean_c,
    dailyAmplitudeK: environment.daily_amplitude_k,
    dailyPeak: environment.daily_peak_s,
    rampKPerDay: environment.ramp_k_per_day,
  };
}

/** The way back. */
export function environmentToJson(environment: Environment) {
  return {
    mean_c: environment.meanC,
    daily_amplitude_k: environment.dailyAmplitudeK,
    daily_peak_s: environment.dailyPeak,
    ramp_k_per_day: environment.rampKPerDay,
  };
}

/** The reference section in the terms of the program. */
export function resolveReference(
  { nominal_hz, temperature, noise, ...rest }: z.output<typeof referenceSchema>,
  report: SenseReport,
): OscillatorParameters {
  return {
    nominalHz: nominal_hz,
    fractionalOffset: rest.fractional_offset,
    agingPerDay: rest.aging_per_day,
    temperature: {
      linearPerK: temperature.linear_per_k,
      parabolicPerK2: temperature.parabolic_per_k2,
      turnoverC: temperature.turnover_c,
    },
    noise: resolveNoise(noise, nominal_hz, ["reference", "noise"], report),
  };
}

/** The way back. */
export function referenceToJson({ temperature, noise, ...reference }: OscillatorParameters) {
  return {
    nominal_hz: reference.nominalHz,
    fractional_offset: reference.fractionalOffset,
    aging_per_day: reference.agingPerDay,
    temperature: {
      linear_per_k: temperature.linearPerK,
      parabolic_per_k2: temperature.parabolicPerK2,
      turnover_c: temperature.turnoverC,
    },
    noise: noiseToJson(noise),
  };
}

/**
 * Checks the reference: is its rate, ageing and temperature included, that of an oscillator, and its noise?
 *
 * @param reference - the reference
 * @param environment - what it stands in
 * @param length - of the run; s
 * @param seen - shortest time over which its noise shows; s
 * @param report - where findings go
 */
export function senseOfReference(
  reference: OscillatorParameters,
  environment: Environment,
  length: number,
  seen: number,
  report: SenseReport,
): void {
  const { temperature } = reference;
  const days = length / secondsPerDay;
  const check = (size: number, key: string, message: string) => {
    if (size > largestRate) report.fault(["reference", key], message);
    else if (size > largeRate) report.warn("large_rate", ["reference", key], message);
  };
  const ageing = Math.abs(reference.agingPerDay) * days;
  check(
    ageing,
    "aging_per_day",
    `adds up to ${short(ageing)} over the run; it is a fraction a day, not parts per million`,
  );
  const off =
    Math.abs(environment.meanC - temperature.turnoverC) +
    environment.dailyAmplitudeK +
    Math.abs(environment.rampKPerDay) * days;
  const byTemperature =
    Math.abs(temperature.linearPerK) * off + Math.abs(temperature.parabolicPerK2) * off * off;
  check(
    byTemperature,
    "temperature",
    `makes a rate of up to ${short(byTemperature)}; coefficients are fractions, not parts per million`,
  );
  senseOfNoise(reference.noise, [seen, length], ["reference", "noise"], report);
}
