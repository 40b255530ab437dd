import type { Readings } from "../../readings/index.ts";
import { correctTemperature } from "./correct-temperature.ts";
import { boundaryModes, readingModes } from "./noise-modes.ts";
import { type NoiseHypothesis, noisePosterior } from "./noise-posterior.ts";
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
  /** What was done about missing temperatures; empty where none was missing. */
  readonly note: string;
}

const fewestUsed = 10;

/**
 * Takes the linear effect of temperature out of a record. The coefficient is fitted beside the noise, weighed as
 * in the estimates of the rate, so that its uncertainty follows from the noise found.
 *
 * Readings count that are there and have their temperature; they are put one after another, rate and temperature
 * alike, so that gaps leave the coefficient right. The noise is then that of the shortened record: simulated with a
 * daily wave or a slow one, white PM, white FM, flicker FM or random-walk FM, and up to three in ten readings or one
 * in six in a row missing, the 95 % interval held the truth in 87 to 99 of 100 runs (on the whole 95 %); with half
 * of the readings missing under flicker FM and a slow wave in 83.
 *
 * @param readings - the record; NaN = missing
 * @param temperature - at each reading; K values, °C; NaN = missing
 * @returns the coefficient, and the readings as at the mean temperature
 * @throws RangeError if fewer than 10 readings have a temperature, or it is constant
 *
 * Source: own derivation; generalised least squares (Aitken 1935). Exact case: readings that follow the
 * temperature and nothing else give their coefficient.
 */
export function regressTemperature(readings: Readings, temperature: Float64Array): TemperatureFit {
  const values = readings.kind === "period" ? readings.period : readings.timeError;
  if (temperature.length !== values.length) {
    throw new RangeError(
      `regressTemperature: temperature must be given for each reading, got ${temperature.length} for ${values.length}`,
    );
  }
  const mean = meanOfUsed(values, temperature);
  const series = ratesOf(
    readings,
    temperature.map((t) => t - mean),
  );
  const used = withoutMissing(series);
  if (used.rate.length < fewestUsed - 1) {
    throw new RangeError(
      `regressTemperature: at least ${fewestUsed} readings with a temperature must follow one another, got ${used.rate.length + 1}`,
    );
  }
  if (used.warmth.every((t) => Math.abs(t - used.warmth[0]!) < 1e-9)) {
    throw new RangeError("regressTemperature: temperature must change, got a constant");
  }
  const hypotheses = noisePosterior(modesOf(used)).filter((h) => h.drift);
  const found = coefficientOf(hypotheses) ?? exactCoefficient(used);
  const { readings: right, note } = correctTemperature(
    readings,
    temperature.map((t) => t - mean),
    found.coefficient,
  );
  return { ...found, meanTemperature: mean, readings: right, note };
}

function meanOfUsed(values: Float64Array, temperature: Float64Array): number {
  let sum = 0;
  let used = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]!) || Number.isNaN(temperature[i]!)) continue;
    sum += temperature[i]!;
    used++;
  }
  if (used < fewestUsed) {
    throw new RangeError(
      `regressTemperature: at least ${fewestUsed} readings must have a temperature, got ${used}`,
    );
  }
  return sum / used;
}

/** Rates and what one kelvin adds to them. */
interface Series {
  /** Slope of the time error over each step; NaN = missing. */
  readonly rate: Float64Array;
  /** Temperature from its mean, over each step; K; NaN = missing. */
  readonly warmth: Float64Array;
  /** Length of each step in units of the mean one. */
  readonly length: Float64Array;
  /** Whether the steps share their ends, so that they add up to time errors. */
  readonly adjoin: boolean;
}

function ratesOf(readings: Readings, warmth: Float64Array): Series {
  if (readings.kind === "time_error") {
    const { timeError, spacing } = readings;
    return {
      rate: timeError.slice(1).map((x, i) => (x - timeError[i]!) / spacing),
      warmth: warmth.slice(1).map((w, i) => (w + warmth[i]!) / 2),
      length: new Float64Array(timeError.length - 1).fill(1),
      adjoin: true,
    };
  }
  const { period, cycles, nominalPeriod, backToBack } = readings;
  const there = cycles.filter((_, i) => !Number.isNaN(period[i]!));
  const usual = there.reduce((sum, c) => sum + c / there.length, 0);
  return {
    rate: period.map((p) => 1 - p / nominalPeriod),
    warmth,
    length: cycles.map((c, i) => (Number.isNaN(period[i]!) ? 1 : c / usual)),
    adjoin: backToBack,
  };
}

/** The steps that count, as if the clock had stood still in the gaps. */
function withoutMissing({ rate, warmth, length, adjoin }: Series): Series {
  const isUsed = (i: number) => !Number.isNaN(rate[i]!) && !Number.isNaN(warmth[i]!);
  const of = (values: Float64Array) => values.filter((_, i) => isUsed(i));
  return { rate: of(rate), warmth: of(warmth), length: of(length), adjoin };
}

/** What one kelvin does to the time errors, or with dead time to the rates. */
function modesOf({ rate, warmth, length, adjoin }: Series) {
  if (!adjoin) return readingModes(rate, 1, warmth);
  const x = new Float64Array(rate.length + 1);
  const gained = new Float64Array(rate.length + 1);
  for (let i = 0; i < rate.length; i++) {
    x[i + 1] = x[i]! + rate[i]! * length[i]!;
    gained[i + 1] = gained[i]! + warmth[i]! * length[i]!;
  }
  return boundaryModes(x, gained);
}

type Coefficient = Pick<TemperatureFit, "coefficient" | "standardUncertainty" | "interval95">;

/** Over all hypotheses about the noise; null where the record does not scatter. */
function coefficientOf(hypotheses: readonly NoiseHypothesis[]): Coefficient | null {
  let weight = 0;
  let coefficient = 0;
  for (const h of hypotheses) {
    weight += h.probability;
    coefficient += h.probability * h.driftEstimate;
  }
  if (!(weight > 0)) return null;
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
  };
}

/** No scatter is left beside the temperature: plain least squares gives the coefficient exactly. */
function exactCoefficient({ rate, warmth }: Series): Coefficient {
  const middle = warmth.reduce((sum, w) => sum + w / warmth.length, 0);
  let product = 0;
  let square = 0;
  for (let i = 0; i < warmth.length; i++) {
    product += (warmth[i]! - middle) * rate[i]!;
    square += (warmth[i]! - middle) ** 2;
  }
  const coefficient = product / square;
  return { coefficient, standardUncertainty: 0, interval95: [coefficient, coefficient] };
}
