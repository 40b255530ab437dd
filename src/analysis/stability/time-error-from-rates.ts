/**
 * Time error that belongs to back-to-back readings of the slope of the time error.
 *
 *   x[0] = 0,  x[k+1] = x[k] + y[k]·τ₀, summed with compensation (Neumaier)
 *
 * @param y - slope of the time error over each reading (fractional frequency); M readings, dimensionless
 * @param tau0 - length of a reading; s, > 0
 * @returns M + 1 time errors; s. After a gap (NaN) the time error is unknown: NaN to the end
 * @throws RangeError if tau0 is not > 0
 *
 * Source: IEEE Std 1139, y = dx/dt. Exact for a constant rate y: x[k] = k·y·τ₀.
 */
export function timeErrorFromRates(y: Float64Array, tau0: number): Float64Array {
  if (!(tau0 > 0)) throw new RangeError(`timeErrorFromRates: tau0 must be > 0 s, got ${tau0}`);
  const x = new Float64Array(y.length + 1);
  let sum = 0;
  let lost = 0;
  for (let k = 0; k < y.length; k++) {
    const term = y[k]!;
    const next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
    x[k + 1] = (sum + lost) * tau0;
  }
  return x;
}
