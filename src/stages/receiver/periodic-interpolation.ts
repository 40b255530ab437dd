import { cosTurns, sinTurns } from "../../numeric/index.ts";

/**
 * Trigonometric interpolation of equally spaced values of a periodic function.
 *
 *   Σ yₖ·sin(πn·s)/(n·tan(πs)), s = x − k/n (n even; 1 at s = 0), the interpolant of least frequency
 *
 * @param values - yₖ at k/n of a period; n = 1 or even
 * @param x - position; periods, any
 * @returns the interpolated value; exact at the nodes
 *
 * Source: P. Henrici, Numer. Math. 33, 225 (1979), even n (from memory). Exact case: any mixture of less than n/2 harmonics.
 */
export function periodicInterpolation(values: Float64Array, x: number): number {
  const n = values.length;
  const at = (x - Math.floor(x)) * n;
  if (n === 1 || at === Math.floor(at)) return values[at % n] ?? values[0]!;
  let sum = 0;
  for (let k = 0; k < n; k++) {
    // πs and πn·s are half turns.
    const s = 0.5 * (x - k / n);
    sum += (values[k]! * sinTurns(n * s) * cosTurns(s)) / (n * sinTurns(s));
  }
  return sum;
}
