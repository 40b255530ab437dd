import type { RandomStream } from "../../numeric/index.ts";
import type { NoiseType } from "./noise-type.ts";
import { readingCovariance, readingsWander } from "./reading-covariance.ts";

/** Fills an array with one realisation of a sequence of rate readings under one noise type, arbitrary scale. */
export type ReadingSimulator = (stream: RandomStream, out: Float64Array) => void;

/**
 * Exact Gaussian simulation of rate readings under one power-law noise, with or without dead time.
 *
 *   y_k = x(kr + 1) − x(kr) in units of a reading's length; for flicker and random-walk FM, whose readings have no
 *   finite variance, their first differences are drawn and summed up from zero
 *
 * Each value is its best linear prediction from all values before plus an independent deviate (Durbin-Levinson).
 *
 * @param type - noise type
 * @param count - readings in a sequence; integer >= 2
 * @param ratio - r, spacing of the starts over the length of a reading; >= 1 (1 = back to back)
 * @param cutoff - twice the upper cutoff frequency of flicker PM times the length of a reading; dimensionless, > 0
 * @returns a function that draws a sequence of `count` readings (dimensionless, arbitrary scale)
 *
 * Source: Durbin-Levinson recursion, P. Brockwell and R. Davis, Time Series: Theory and Methods, section 5.2.
 * Exact case: white FM gives independent deviates of variance 2.
 */
export function readingSimulator(
  type: NoiseType,
  count: number,
  ratio: number,
  cutoff: number,
): ReadingSimulator {
  const integrated = readingsWander(type);
  const covariance = new Float64Array(count);
  for (let j = 0; j < count; j++) covariance[j] = readingCovariance(type, j, ratio, cutoff);
  const { weights, deviation } = predictors(covariance);
  const drawn = new Float64Array(count);
  return (stream, out) => {
    let level = 0;
    for (let t = 0; t < count; t++) {
      let value = deviation[t]! * stream.normal();
      const row = (t * (t - 1)) / 2;
      for (let k = 0; k < t; k++) value += weights[row + k]! * drawn[t - 1 - k]!;
      drawn[t] = value;
      level += value;
      out[t] = integrated ? level : value;
    }
  };
}

/** Prediction weights of every length, row after row, and the standard deviation of what is left. */
function predictors(covariance: Float64Array): { weights: Float64Array; deviation: Float64Array } {
  const count = covariance.length;
  const weights = new Float64Array((count * (count - 1)) / 2);
  const deviation = new Float64Array(count);
  let variance = covariance[0]!;
  deviation[0] = Math.sqrt(variance);
  for (let t = 1; t < count; t++) {
    const before = ((t - 1) * (t - 2)) / 2;
    const row = (t * (t - 1)) / 2;
    let reflection = covariance[t]!;
    for (let k = 0; k < t - 1; k++) reflection -= weights[before + k]! * covariance[t - 1 - k]!;
    reflection /= variance;
    for (let k = 0; k < t - 1; k++) {
      weights[row + k] = weights[before + k]! - reflection * weights[before + t - 2 - k]!;
    }
    weights[row + t - 1] = reflection;
    variance *= 1 - reflection * reflection;
    deviation[t] = Math.sqrt(variance);
  }
  return { weights, deviation };
}
