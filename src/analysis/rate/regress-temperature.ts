import type { Readings } from "../readings/readings.ts";
import { boundaryModes, readingModes } from "./noise-modes.ts";
import { noisePosterior } from "./noise-posterior.ts";
import { mixtureHalfWidth } from "./student-t.ts";

/** How the rate follows the temperature, and the record without that. */
export interface TemperatureFit {
  /** Coefficient of the rate; 1/K. */
  readonly coefficient: number;
  readonly standardUncertainty: number;
  readonly interval95: readonly [number, number];
  /** Temperature to which the corrected readings belong: the mean over the readings used; °C. */
  readonly meanTemperature: number;
  readonly readings: Readings;
}

/**
 * Takes the linear effect of temperature out of a record. The coefficient is fitted beside the noise, weighed as
 * in the estimates of the rate, so that its uncertainty follows from the noise found.
 *
 * @param readings - the record, without gaps
 * @param temperature - at each reading; K values, °C
 * @returns the coefficient, and the readings as at the mean temperature
 * @throws RangeError if there are fewer than 10 readings, gaps, missing temperatures, or the temperature is constant
 *
 * Source: own derivation; generalised least squares (Aitken 1935). Exact case: readings that follow the
 * temperature and nothing else give their coefficient.
 */
export function regressTemperature(readings: Readings, temperature: Float64Array): TemperatureFit {
  const values = readings.kind === "period" ? readings.period : readings.timeError;
  const count = values.length;
  if (count < 10 || temperature.length !== count) {
    throw new RangeError(
      `regressTemperature: temperature must be given for each of at least 10 readings, got ${temperature.length} for ${count}`,
    );
  }
  let mean = 0;
  for (let i = 0; i < count; i++) {
    if (Number.isNaN(values[i]!) || Number.isNaN(temperature[i]!)) {
      throw new RangeError(
        `regressTemperature: readings must have no gaps and each its temperature, got none at ${i} (counted from 0)`,
      );
    }
    mean += temperature[i]! / count;
  }
  const warmth = temperature.map((t) => t - mean);
  if (warmth.every((t) => Math.abs(t) < 1e-9)) {
    throw new RangeError("regressTemperature: temperature must change, got a constant");
  }
  const hypotheses = noisePosterior(modesWith(readings, warmth)).filter((h) => h.drift);
  let weight = 0;
  let coefficient = 0;
  for (const h of hypotheses) {
    weight += h.probability;
    coefficient += h.probability * h.driftEstimate;
  }
  if (!(weight > 0)) return exactFit(readings, warmth, mean);
  coefficient /= weight;
  // Spread within each hypothesis, and of the hypotheses among each other.
  const scale = hypotheses.map((h) =>
    Math.hypot(h.driftUncertainty, h.driftEstimate - coefficient),
  );
  const half = mixtureHalfWidth(
    scale,
    hypotheses.map((h) => h.probability),
    hypotheses.map((h) => h.degreesOfFreedom),
    0.95,
  );
  const variance = hypotheses.reduce((sum, h, i) => sum + h.probability * scale[i]! ** 2, 0);
  return {
    coefficient,
    standardUncertainty: Math.sqrt(variance / weight),
    interval95: [coefficient - half, coefficient + half],
    meanTemperature: mean,
    readings: corrected(readings, warmth, coefficient),
  };
}

/** What one kelvin does to the time errors, or with dead time to the rates. */
function modesWith(readings: Readings, warmth: Float64Array) {
  const count = warmth.length;
  if (readings.kind === "time_error") {
    const { timeError, spacing } = readings;
    const gained = new Float64Array(count);
    for (let i = 1; i < count; i++) gained[i] = gained[i - 1]! + (warmth[i - 1]! + warmth[i]!) / 2;
    return boundaryModes(
      timeError.map((x) => x / spacing),
      gained,
    );
  }
  const { period, cycles, nominalPeriod, backToBack } = readings;
  if (!backToBack)
    return readingModes(
      period.map((p) => 1 - p / nominalPeriod),
      1,
      warmth,
    );
  const interval = (cycles.reduce((s, c) => s + c, 0) * nominalPeriod) / count;
  const x = new Float64Array(count + 1);
  const gained = new Float64Array(count + 1);
  for (let i = 0; i < count; i++) {
    x[i + 1] = x[i]! + (cycles[i]! * (nominalPeriod - period[i]!)) / interval;
    gained[i + 1] = gained[i]! + (warmth[i]! * cycles[i]! * nominalPeriod) / interval;
  }
  return boundaryModes(x, gained);
}

function corrected(readings: Readings, warmth: Float64Array, coefficient: number): Readings {
  if (readings.kind === "period") {
    const { nominalPeriod } = readings;
    const period = readings.period.map((p, i) => p + nominalPeriod * coefficient * warmth[i]!);
    return { ...readings, period };
  }
  const { timeError, spacing } = readings;
  let gained = 0;
  const right = timeError.map((x, i) => {
    if (i > 0) gained += ((warmth[i - 1]! + warmth[i]!) / 2) * spacing;
    return x - coefficient * gained;
  });
  return { ...readings, timeError: right };
}

/** No scatter is left beside the temperature: plain least squares gives the coefficient exactly. */
function exactFit(readings: Readings, warmth: Float64Array, mean: number): TemperatureFit {
  const rates =
    readings.kind === "period" ? readings.period.map((p) => 1 - p / readings.nominalPeriod) : null;
  let product = 0;
  let square = 0;
  for (let i = 0; i < warmth.length; i++) {
    product += warmth[i]! * (rates?.[i] ?? 0);
    square += warmth[i]! ** 2;
  }
  const coefficient = product / square;
  return {
    coefficient,
    standardUncertainty: 0,
    interval95: [coefficient, coefficient],
    meanTemperature: mean,
    readings: corrected(readings, warmth, coefficient),
  };
}
