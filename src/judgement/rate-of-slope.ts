/**
 * Rate of a clock whose time error has the slope s.
 *
 *   f/f₀ − 1 = s/(1 − s)
 *
 * @param slope - s; dimensionless, < 1
 * @returns the rate; dimensionless
 *
 * Source: definition of the time error, x = n·T − t. Exact case: 0.5 gives 1.
 */
export function rateOfSlope(slope: number): number {
  return slope / (1 - slope);
}
