import type { NoiseType } from "./noise-type.ts";
import { timeErrorCovariance } from "./time-error-covariance.ts";

/**
 * Whether the readings of a noise type have no finite variance, so that only their differences are stationary.
 *
 * @param type - noise type
 * @returns true for flicker and random-walk FM (a claim, no unit)
 */
export function readingsWander(type: NoiseType): boolean {
  return type === "flicker_fm" || type === "random_walk_fm";
}

/**
 * Covariance of rate readings j apart, or of their first differences where only these are stationary.
 *
 *   y_k = x(kr + 1) − x(kr) in units of a reading's length:  R(j) = 2s(jr) − s(jr + 1) − s(|jr − 1|);
 *   flicker and random-walk FM:  2R(j) − R(j + 1) − R(j − 1);  s the generalised autocovariance of x
 *
 * @param type - noise type
 * @param j - readings apart; integer
 * @param ratio - r, spacing of the starts over the length of a reading; >= 1 (1 = back to back)
 * @param cutoff - twice the upper cutoff frequency of flicker PM times the length of a reading; dimensionless, > 0
 * @returns covariance; dimensionless, arbitrary scale
 *
 * Source: C. Greenhall and W. Riley, PTTI 2003. Exact case: white FM, R(0) = 2 and R(j) = 0 beyond.
 */
export function readingCovariance(
  type: NoiseType,
  j: number,
  ratio: number,
  cutoff: number,
): number {
  if (!readingsWander(type)) return plainCovariance(type, j, ratio, cutoff);
  return (
    2 * plainCovariance(type, j, ratio, cutoff) -
    plainCovariance(type, j + 1, ratio, cutoff) -
    plainCovariance(type, j - 1, ratio, cutoff)
  );
}

function plainCovariance(type: NoiseType, j: number, ratio: number, cutoff: number): number {
  const lag = Math.abs(j) * ratio;
  return (
    2 * timeErrorCovariance(type, lag, cutoff) -
    timeErrorCovariance(type, lag + 1, cutoff) -
    timeErrorCovariance(type, Math.abs(lag - 1), cutoff)
  );
}

/**
 * Exponent that the lag-1 method tends to in long records of one noise type.
 *
 *   δ = r₁/(1 + r₁) of the readings, or of their first differences (d = 1) where they wander:  α = −2(δ + d)
 *
 * @param type - noise type
 * @param ratio - as above; >= 1
 * @param cutoff - as above; > 0
 * @returns α of the readings' spectrum by the lag-1 method; dimensionless
 *
 * Source: NIST SP 1065, section 5.5.3, with the covariance in place of its estimate. Exact: 0 for white FM, 2 for
 * white PM back to back.
 */
export function longRecordExponent(type: NoiseType, ratio: number, cutoff: number): number {
  const r = readingCovariance(type, 1, ratio, cutoff) / readingCovariance(type, 0, ratio, cutoff);
  return -2 * (r / (1 + r) + (readingsWander(type) ? 1 : 0));
}
