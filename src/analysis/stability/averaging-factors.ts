/**
 * Averaging factors 1, 2, 4, … up to a limit.
 *
 * @param limit - greatest factor allowed; integer >= 0 (0 gives none)
 * @returns the powers of two <= limit, ascending; dimensionless
 * @throws RangeError if limit is not an integer >= 0
 */
export function octaveFactors(limit: number): number[] {
  requireLimit("octaveFactors", limit);
  const factors: number[] = [];
  for (let m = 1; m <= limit; m *= 2) factors.push(m);
  return factors;
}

/**
 * All averaging factors 1, 2, 3, … up to a limit.
 *
 * @param limit - greatest factor allowed; integer >= 0 (0 gives none)
 * @returns the integers 1 … limit; dimensionless
 * @throws RangeError if limit is not an integer >= 0
 */
export function allFactors(limit: number): number[] {
  requireLimit("allFactors", limit);
  return Array.from({ length: limit }, (_, i) => i + 1);
}

function requireLimit(caller: string, limit: number): void {
  if (!Number.isInteger(limit) || limit < 0) {
    throw new RangeError(`${caller}: limit must be an integer >= 0, got ${limit}`);
  }
}
