import type { RandomStream } from "../numeric/random-stream.ts";

/**
 * When a Brownian bridge known to reach a straight line first does so, as a fraction of its length.
 *
 *   f = r/(1 + r),  r inverse Gaussian with mean a/b and shape a²/s
 *
 * (the first-touch density of the bridge, ∝ f^(−3/2)·(1 − f)^(−1/2)·exp(−a²/(2sf) − b²/(2s(1 − f))), in
 * the variable r). By reflection the end may lie on either side of the line.
 *
 * @param stream - one Gaussian and one uniform deviate are drawn
 * @param a - distance from the line at the start; > 0
 * @param b - distance from the line at the end, either side; >= 0
 * @param s - variance the unconditioned path gains from start to end; same unit squared, > 0
 * @returns fraction of s gone by at the first touch; 0 < f <= 1
 *
 * Source: the reflection principle; sampling after J. R. Michael, W. R. Schucany, R. W. Haas, "Generating
 * Random Variates Using Transformations with Multiple Roots", Amer. Statist. 30, 1976, with its smaller
 * root written without cancellation. Limit: as s falls to 0 the fraction is a/(a + b).
 */
export function touchingFraction(stream: RandomStream, a: number, b: number, s: number): number {
  const end = b > 1e-100 ? b : 1e-100;
  const g = stream.normal();
  const spread = (g * g * s) / (2 * a * end);
  const k = 1 / (1 + spread + Math.sqrt(spread * (2 + spread)));
  // r = (a/b)·k with probability 1/(1 + k), else (a/b)/k.
  return stream.uniform() * (1 + k) <= 1 ? (a * k) / (end + a * k) : a / (end * k + a);
}
