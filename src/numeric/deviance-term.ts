import { log } from "./portable-log.ts";

/**
 * Deviance of an observed count from its expectation, without cancellation where they are close.
 *
 *   D(x, μ) = x·ln(x/μ) + μ − x
 *
 * @param x - observed; ≥ 0 (not checked, inner loop)
 * @param mu - μ, expected; > 0 (not checked)
 * @returns D ≥ 0; dimensionless, relative error about 1e-15
 *
 * Source: C. Loader, "Fast and Accurate Computation of Binomial Probabilities", 2000, where it is
 * called bd0. Exact case: D(μ, μ) = 0.
 */
export function devianceTerm(x: number, mu: number): number {
  if (x === 0) {
    return mu;
  }
  const difference = x - mu;
  const v = difference / (x + mu);
  if (Math.abs(v) >= 0.1) {
    return x * log(x / mu) - difference;
  }
  // x·ln(x/μ) = 2x·artanh v; its first term less the difference is (x − μ)·v.
  const z = v * v;
  let term = 2 * x * v;
  let sum = difference * v;
  for (let k = 3; ; k += 2) {
    term *= z;
    const next = sum + term / k;
    if (next === sum) {
      return sum;
    }
    sum = next;
  }
}
