import { log1p } from "./portable-log.ts";

/**
 * What Stirling's formula leaves out of ln Γ(x + 1).
 *
 *   δ(x) = ln Γ(x + 1) − (x + ½)·ln x + x − ½·ln 2π = 1/(12x) − 1/(360x³) + …
 *
 * @param x - argument; > 0 (not checked, inner loop)
 * @returns δ(x); dimensionless, error below 2e-15
 *
 * Source: DLMF 5.11.1; the use in probabilities after C. Loader, "Fast and Accurate Computation of
 * Binomial Probabilities", 2000. Exact case: δ(1) = 1 − ½·ln 2π.
 */
export function stirlingError(x: number): number {
  // Below 12 the recurrence δ(x) = δ(x + 1) + (x + ½)·ln(1 + 1/x) − 1 leads upwards.
  let n = x;
  let sum = 0;
  while (n < 12) {
    sum += (n + 0.5) * log1p(1 / n) - 1;
    n += 1;
  }
  const z = 1 / (n * n);
  const series =
    1 / 12 -
    z * (1 / 360 - z * (1 / 1260 - z * (1 / 1680 - z * (1 / 1188 - z * (691 / 360360 - z / 156)))));
  return sum + series / n;
}
