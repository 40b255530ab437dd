import type { NoiseType } from "./noise-type.ts";
import { requireFactor } from "./require-arguments.ts";

/**
 * Equivalent degrees of freedom of the overlapping Allan variance by the published approximations.
 *
 *   white PM        (N+1)(N−2m) / [2(N−m)]
 *   flicker PM      exp √{ln[(N−1)/(2m)] · ln[(2m+1)(N−1)/4]}
 *   white FM        [3(N−1)/(2m) − 2(N−2)/N] · 4m²/(4m²+5)
 *   flicker FM      2(N−2)²/(2.3N−4.9) for m = 1, 5N²/[4m(N+3m)] for m >= 2
 *   random-walk FM  (N−2)/m · [(N−1)² − 3m(N−1) + 4m²]/(N−3)²
 *
 * They lie within 22 % of the exact values, worst for flicker PM; the exact sum is what the program uses.
 *
 * @param type - noise type
 * @param samples - N, number of time errors; integer >= 4
 * @param m - averaging factor; integer, 1 <= m and 2m < N
 * @returns equivalent degrees of freedom; dimensionless
 * @throws RangeError if samples or m is outside the range
 *
 * Source: NIST TN 1337, Table 12-4 (p. 215); NIST SP 1065, section 5.4.1.
 * Exact case: white FM, N = 1001, m = 10 gives 146.177.
 */
export function approximateDegreesOfFreedom(type: NoiseType, samples: number, m: number): number {
  if (!Number.isInteger(samples) || samples < 4) {
    throw new RangeError(
      `approximateDegreesOfFreedom: samples must be an integer >= 4, got ${samples}`,
    );
  }
  requireFactor("approximateDegreesOfFreedom", m, 2, samples);
  const n = samples;
  switch (type) {
    case "white_pm":
      return ((n + 1) * (n - 2 * m)) / (2 * (n - m));
    case "flicker_pm":
      return Math.exp(
        Math.sqrt(Math.log((n - 1) / (2 * m)) * Math.log(((2 * m + 1) * (n - 1)) / 4)),
      );
    case "white_fm":
      return (((3 * (n - 1)) / (2 * m) - (2 * (n - 2)) / n) * 4 * m * m) / (4 * m * m + 5);
    case "flicker_fm":
      return m === 1
        ? (2 * (n - 2) * (n - 2)) / (2.3 * n - 4.9)
        : (5 * n * n) / (4 * m * (n + 3 * m));
    case "random_walk_fm":
      return (
        (((n - 2) / m) * ((n - 1) * (n - 1) - 3 * m * (n - 1) + 4 * m * m)) / ((n - 3) * (n - 3))
      );
  }
}
