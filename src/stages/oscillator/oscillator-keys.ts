import { z } from "zod";
import {
  finite,
  fraction,
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
const environmentSchema = z
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
const referenceSchema = z
  .strictObject({
    nominal_hz: positive("Nominal frequency; Hz"),
    like: likeSchema,
    fractional_offset: fraction("Fractional frequency offset at the start; dimensionless").default(
      0,
    ),
    uncertainty: nonNegative(
      "Half-width of the bound within which the offset is known; dimensionless. Default: |fractional_offset|",
    ).optional(),
    aging_per_day: finite("Ageing of the fractional frequency; 1/day").default(0),
    temperature: temperatureSchema.prefault({}),
    noise: noiseSchema.prefault({}),
  })
  .meta({ description: "The reference oscillator at the head of the chain" });

/** The reference section in the terms of the program. */
function resolveReference(
  { noise, ...rest }: z.output<typeof referenceSchema>,
  report: SenseReport,
): OscillatorParameters {
  const levels = resolveNoise(noise, rest.nominal_hz, ["reference", "noise"], report);
  return { ...inTerms(rest), noise: levels };
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
function senseOfReference(
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

/** What the environment of all oscillators says of its section. */
export const environmentKeys = {
  schema: environmentSchema,
  resolve: (environment: z.output<typeof environmentSchema>): Environment => inTerms(environment),
};

/** What the reference says of its section. */
export const referenceKeys = {
  schema: referenceSchema,
  resolve: resolveReference,
  sense: senseOfReference,
};
