/**
 * Refuses a sampling interval that is not a positive number.
 *
 * @param caller - name of the function that was called, for the message
 * @param tau0 - spacing of the samples; s
 * @throws RangeError if tau0 is not > 0 and finite
 */
export function requireSpacing(caller: string, tau0: number): void {
  if (!(tau0 > 0 && tau0 < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`${caller}: tau0 must be > 0 s and finite, got ${tau0}`);
  }
}

/**
 * Refuses an averaging factor that is no integer, or too large for the record.
 *
 * @param caller - name of the function that was called, for the message
 * @param m - averaging factor; dimensionless
 * @param span - the term of the statistic covers span·m sampling intervals; integer >= 1
 * @param samples - N, samples in the record; integer
 * @param mayFill - whether a term may take up all N samples, as where it averages over the last m of them
 * @throws RangeError if m is not an integer with 1 <= m and span·m < N (<= N where it may fill)
 */
export function requireFactor(
  caller: string,
  m: number,
  span: number,
  samples: number,
  mayFill = false,
): void {
  const fits = mayFill ? span * m <= samples : span * m < samples;
  if (!Number.isInteger(m) || m < 1 || !fits) {
    const limit = `${span === 1 ? "m" : `${span}m`} ${mayFill ? "<=" : "<"} N = ${samples}`;
    throw new RangeError(`${caller}: m must be an integer with 1 <= m and ${limit}, got ${m}`);
  }
}

/**
 * Refuses a bias that is no positive number.
 *
 * @param caller - name of the function that was called, for the message
 * @param bias - ratio of expected values; dimensionless
 * @throws RangeError if bias is not > 0 and finite
 */
export function requireBias(caller: string, bias: number): void {
  if (!(bias > 0 && bias < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`${caller}: bias must be > 0 and finite, got ${bias}`);
  }
}
