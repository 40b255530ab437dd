import { requireFactor } from "./require-arguments.ts";

/** What a series of numbers is: time errors (x, s) or slopes of the time error (y, dimensionless). */
export type SeriesKind = "time_error" | "rate";

/** Differences taken at most; enough for random-walk FM with drift in a time-error record. */
const mostDifferences = 3;

/**
 * Exponent α of S_y(f) ∝ f^α from the lag-1 autocorrelation of a series.
 *
 *   r₁ = Σ (z_i − z̄)(z_{i+1} − z̄) / Σ (z_i − z̄)²,  δ = r₁/(1 + r₁);  differenced until δ < ¼ (d times);
 *   p = −2(δ + d);  α = p for rates, p + 2 for time errors
 *
 * Time errors are decimated by m, rates averaged over m. Gaps (NaN) are left out of the means and products; a
 * mean over m readings with a gap is a gap.
 *
 * @param data - evenly spaced time errors (s) or rates (dimensionless); N samples
 * @param kind - which of the two
 * @param m - averaging factor; integer, 1 <= m < N
 * @returns estimate of α; dimensionless. NaN where fewer than 4 values or no variation are left
 * @throws RangeError if m is outside the range
 *
 * Source: W. Riley and C. Greenhall, EFTF 2004; NIST SP 1065, section 5.5.3.
 * Exact case: rates alternating +1, −1 without end have r₁ = −1, δ → −∞; white noise has r₁ = 0, so α = 0 for rates.
 */
export function lagOneExponent(data: Float64Array, kind: SeriesKind, m = 1): number {
  requireFactor("lagOneExponent", m, 1, data.length);
  const series = kind === "rate" ? means(data, m) : decimated(data, m);
  const p = lagOnePower(series, series.length);
  return kind === "rate" ? p : p + 2;
}

/**
 * Every m-th sample, beginning with the first.
 *
 * @param data - samples, any unit
 * @param m - step; integer >= 1
 * @returns ⌈N/m⌉ samples, same unit
 */
export function decimated(data: Float64Array, m: number): Float64Array {
  const result = new Float64Array(Math.ceil(data.length / m));
  for (let i = 0; i < result.length; i++) result[i] = data[i * m]!;
  return result;
}

/**
 * Means over m neighbouring samples, side by side; what is left over at the end is not used.
 *
 * @param data - samples, any unit
 * @param m - samples a mean; integer >= 1
 * @returns ⌊N/m⌋ means, same unit; NaN where a sample is NaN
 */
export function means(data: Float64Array, m: number): Float64Array {
  const result = new Float64Array(Math.floor(data.length / m));
  for (let i = 0; i < result.length; i++) {
    let sum = 0;
    for (let j = 0; j < m; j++) sum += data[i * m + j]!;
    result[i] = sum / m;
  }
  return result;
}

/**
 * Power p of a series' own spectrum ∝ f^p by the lag-1 method; the series is overwritten.
 *
 * @param series - samples, any unit; used as working space
 * @param count - how many of them belong to the series; integer <= series length
 * @returns p; dimensionless. NaN where fewer than 4 values or no variation are left
 *
 * Source: NIST SP 1065, section 5.5.3.
 */
export function lagOnePower(series: Float64Array, count: number): number {
  let left = count;
  for (let d = 0; ; d++) {
    const r = lagOneCorrelation(series, left);
    const delta = r / (1 + r);
    if (!(delta >= 0.25) || d === mostDifferences) return -2 * (delta + d);
    left--;
    for (let i = 0; i < left; i++) series[i] = series[i + 1]! - series[i]!;
  }
}

function lagOneCorrelation(series: Float64Array, count: number): number {
  let sum = 0;
  let values = 0;
  for (let i = 0; i < count; i++) {
    const value = series[i]!;
    if (!Number.isNaN(value)) {
      sum += value;
      values++;
    }
  }
  if (values < 4) return Number.NaN;
  const mean = sum / values;
  let squares = 0;
  let products = 0;
  let pairs = 0;
  let before = Number.NaN;
  for (let i = 0; i < count; i++) {
    const value = series[i]! - mean;
    if (!Number.isNaN(value)) {
      squares += value * value;
      if (!Number.isNaN(before)) {
        products += before * value;
        pairs++;
      }
    }
    before = value;
  }
  // Without gaps the factor is one.
  return (products / squares) * ((values - 1) / pairs);
}
