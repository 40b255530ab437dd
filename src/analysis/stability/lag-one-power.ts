/** What a series of numbers is: time errors (x, s) or slopes of the time error (y, dimensionless). */
export type SeriesKind = "time_error" | "rate";

/** Differences taken at most; enough for random-walk FM with drift in a time-error record. */
const mostDifferences = 3;

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
 * Power p of a series' own spectrum ∝ f^p from its lag-1 autocorrelation; the series is overwritten.
 *
 *   r₁ = Σ (z_i − z̄)(z_{i+1} − z̄) / Σ (z_i − z̄)²,  δ = r₁/(1 + r₁);  differenced until δ < ¼ (d times);
 *   p = −2(δ + d);  α of S_y(f) ∝ f^α is p for rates, p + 2 for time errors
 *
 * Gaps (NaN) are left out of the mean and of the products, which are then fewer than the squares.
 *
 * @param series - evenly spaced samples, any unit; used as working space
 * @param count - how many of them belong to the series; integer <= series length
 * @returns p; dimensionless. NaN where fewer than 4 values or no variation are left
 *
 * Source: W. Riley and C. Greenhall, EFTF 2004; NIST SP 1065, section 5.5.3.
 * Exact case: a series alternating +1, −1 without end has r₁ = −1, δ → −∞; white noise has r₁ = 0, so p = 0.
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
