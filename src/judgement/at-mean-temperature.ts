import type { Readings } from "../readings/index.ts";

/** How the rate follows the temperature. */
export interface TemperatureCoefficient {
  /** Coefficient of the slope; 1/K. */
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
  /** Mean over the readings, to which the rates belong; °C. */
  readonly mean: number;
}

/**
 * The readings as they would be at their mean temperature, by a coefficient of the rate.
 *
 * @param readings - the record with its temperatures
 * @param coefficient - what was fitted
 * @returns the record with the effect taken out; where a temperature is missing the reading stays
 */
export function atMeanTemperature(
  readings: Readings,
  { estimate, mean }: TemperatureCoefficient,
): Readings {
  const { temperature } = readings;
  if (temperature === undefined) return readings;
  const off = (i: number) =>
    Number.isNaN(temperature[i]!) ? 0 : estimate * (temperature[i]! - mean);
  if (readings.kind === "period") {
    const { period, nominalPeriod } = readings;
    return { ...readings, period: period.map((p, i) => p + off(i) * nominalPeriod) };
  }
  let gained = 0;
  const timeError = readings.timeError.map((x, i) => {
    gained += i === 0 ? 0 : off(i) * readings.spacing;
    return x - gained;
  });
  return { ...readings, timeError };
}
