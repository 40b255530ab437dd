import { chiSquareQuantile } from "../../numeric/index.ts";

/** A two-sided confidence interval of a deviation, in the unit of the deviation. */
export interface DeviationInterval {
  readonly low: number;
  readonly high: number;
}

/**
 * Two-sided confidence interval of a deviation whose variance is distributed as chi-square.
 *
 *   s·√(ν/χ²_{(1+p)/2}(ν)) <= σ <= s·√(ν/χ²_{(1−p)/2}(ν))
 *
 * @param deviation - s, the estimate; any unit, >= 0 or NaN
 * @param degreesOfFreedom - ν, equivalent degrees of freedom; > 0
 * @param confidence - p; 0 < p < 1, default 0.95
 * @returns bounds in the unit of the deviation; NaN if the deviation is NaN
 * @throws RangeError if an argument is outside its range
 *
 * Source: NIST TN 1337, eqs 12-37 to 12-39 (p. 213); NIST SP 1065, section 5.3.
 * Exact case: ν = 2 at 95 %: factors √(1/−ln 0.025) and √(1/−ln 0.975).
 */
export function deviationInterval(
  deviation: number,
  degreesOfFreedom: number,
  confidence = 0.95,
): DeviationInterval {
  if (deviation < 0) {
    throw new RangeError(`deviationInterval: deviation must be >= 0, got ${deviation}`);
  }
  if (!(degreesOfFreedom > 0)) {
    throw new RangeError(
      `deviationInterval: degreesOfFreedom must be > 0, got ${degreesOfFreedom}`,
    );
  }
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(
      `deviationInterval: confidence must be between 0 and 1, got ${confidence}`,
    );
  }
  const upper = chiSquareQuantile((1 + confidence) / 2, degreesOfFreedom);
  const lower = chiSquareQuantile((1 - confidence) / 2, degreesOfFreedom);
  return {
    low: deviation * Math.sqrt(degreesOfFreedom / upper),
    high: deviation * Math.sqrt(degreesOfFreedom / lower),
  };
}
