import type { NoiseType } from "./noise-type.ts";
import { requireFactor } from "./require-arguments.ts";
import { timeErrorCovariance } from "./time-error-covariance.ts";

/** Statistics whose degrees of freedom are known here; the time deviation has those of the modified Allan. */
export type StabilityStatistic =
  | "allan"
  | "overlapping_allan"
  | "modified_allan"
  | "hadamard"
  | "overlapping_hadamard";

/** Coefficients of the squared second and third difference at lags 0, ±m, ±2m, ±3m. */
const squaredDifference = {
  second: [6, -4, 1],
  third: [20, -15, 6, -1],
} as const;

/** Lag, in units of m, beyond which correlations of flicker noise (they fall as 1/lag²) add less than 1e-6. */
const farthestLag = 50;
/** Averaging factor at which the modified Allan correlations have reached their limit to 1/m² = 2e-4. */
const widestMean = 64;

/**
 * Equivalent degrees of freedom of a stability statistic, from the exact covariance of its terms.
 *
 *   edf = M / [1 + 2 Σ_{j=1}^{M−1} (1 − j/M) ρ_j²],  ρ_j the correlation of terms j apart, M the number of terms
 *
 * ρ_j follows from the noise's generalised autocovariance by differences. Blocks of lags far from 0, m, 2m, 3m are
 * represented by their middle, correlations beyond 50m are left out, and for the modified Allan variance with
 * m > 64 the ratio N/m is kept at m = 64: together below 0.1 %, but up to 5 % where fewer than 64 terms of the modified
 * Allan variance with m > 64 are left. Flicker PM has its cutoff at half the sampling rate.
 *
 * @param statistic - which estimator
 * @param type - noise type
 * @param samples - N, number of time errors (one more than back-to-back readings); integer
 * @param m - averaging factor; integer >= 1, at least one term must fit (2m < N, 3m <= N or 3m < N)
 * @returns equivalent degrees of freedom; dimensionless, >= 1
 * @throws RangeError if m is outside the range
 *
 * Source: C. Greenhall and W. Riley, PTTI 2003; NIST SP 1065, section 5.4.1.
 * Exact case: one term has one degree of freedom.
 */
export function degreesOfFreedom(
  statistic: StabilityStatistic,
  type: NoiseType,
  samples: number,
  m: number,
): number {
  switch (statistic) {
    case "allan":
    case "overlapping_allan":
      requireFactor("degreesOfFreedom", m, 2, samples);
      return statistic === "allan"
        ? sideBySide(squaredDifference.second, type, samples, m)
        : overlapping(squaredDifference.second, type, samples, m);
    case "hadamard":
    case "overlapping_hadamard":
      requireFactor("degreesOfFreedom", m, 3, samples);
      return statistic === "hadamard"
        ? sideBySide(squaredDifference.third, type, samples, m)
        : overlapping(squaredDifference.third, type, samples, m);
    case "modified_allan":
      requireFactor("degreesOfFreedom", m, 3, samples, true);
      return averaged(type, samples, m);
  }
}

/** Covariance of two differences of x, their starts u·m apart; arbitrary scale. */
function differenceCovariance(
  coefficients: readonly number[],
  type: NoiseType,
  u: number,
  m: number,
): number {
  let sum = coefficients[0]! * timeErrorCovariance(type, u, m);
  for (let k = 1; k < coefficients.length; k++) {
    sum +=
      coefficients[k]! *
      (timeErrorCovariance(type, u + k, m) + timeErrorCovariance(type, Math.abs(u - k), m));
  }
  return sum;
}

/** Lag in units of m up to which differences of this noise are correlated. */
function reach(coefficients: readonly number[], type: NoiseType): number {
  return type === "flicker_pm" || type === "flicker_fm" ? farthestLag : coefficients.length - 1;
}

function sideBySide(
  coefficients: readonly number[],
  type: NoiseType,
  samples: number,
  m: number,
): number {
  const terms = Math.floor((samples - 1) / m) - coefficients.length + 2;
  const variance = differenceCovariance(coefficients, type, 0, m);
  const last = Math.min(terms - 1, reach(coefficients, type));
  let sum = 1;
  for (let j = 1; j <= last; j++) {
    const rho = differenceCovariance(coefficients, type, j, m) / variance;
    sum += 2 * (1 - j / terms) * rho * rho;
  }
  return terms / sum;
}

function overlapping(
  coefficients: readonly number[],
  type: NoiseType,
  samples: number,
  m: number,
): number {
  const order = coefficients.length - 1;
  const terms = samples - order * m;
  const variance = differenceCovariance(coefficients, type, 0, m);
  const last = Math.min(terms - 1, reach(coefficients, type) * m);
  let sum = 1;
  let j = 1;
  while (j <= last) {
    // Correlations bend only at multiples of m up to order·m: blocks widen with the distance from these.
    const distance = Math.abs(j - m * Math.min(order, Math.round(j / m)));
    const half = Math.min(Math.floor(distance / 64), Math.floor((last - j) / 2));
    const middle = j + half;
    const rho = differenceCovariance(coefficients, type, middle / m, m) / variance;
    sum += 2 * (2 * half + 1) * (1 - middle / terms) * rho * rho;
    j += 2 * half + 1;
  }
  return terms / sum;
}

function averaged(type: NoiseType, samples: number, m: number): number {
  const mean = Math.min(m, widestMean);
  const terms = ((samples - 3 * m + 1) * mean) / m;
  const coefficients = squaredDifference.second;
  // One more m than the differences reach: the means overlap that much longer.
  const last = Math.min(Math.ceil(terms) - 1, (reach(coefficients, type) + 1) * mean);
  const plain = new Float64Array(last + mean);
  for (let j = 0; j < plain.length; j++) {
    plain[j] = differenceCovariance(coefficients, type, j / mean, mean);
  }
  const covariance = (j: number): number => {
    let sum = mean * plain[j]!;
    for (let l = 1; l < mean; l++) sum += (mean - l) * (plain[j + l]! + plain[Math.abs(j - l)]!);
    return sum;
  };
  const variance = covariance(0);
  let sum = 1;
  for (let j = 1; j <= last; j++) {
    const rho = covariance(j) / variance;
    sum += 2 * (1 - j / terms) * rho * rho;
  }
  return Math.max(1, terms / sum);
}
