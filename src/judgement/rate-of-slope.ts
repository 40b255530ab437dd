/**
 * Rate that belongs to a slope of time error over nominal time: f/f₀ − 1 = s/(1 − s).
 *
 * @param slope - s = Δx/(n·T); dimensionless, < 1
 * @returns the rate f/f₀ − 1; dimensionless
 *
 * Source: own derivation: n cycles take n·T − Δx, so f/f₀ = n·T/(n·T − Δx). Exact case: 0 gives 0.
 */
export function rateOfSlope(slope: number): number {
  return slope / (1 - slope);
}
