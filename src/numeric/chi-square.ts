import {
  gammaDensityTimesX,
  lowerIncompleteGamma,
  upperIncompleteGamma,
} from "./incomplete-gamma.ts";
import { lnGamma } from "./ln-gamma.ts";
import { monotoneRoot } from "./monotone-root.ts";
import { normalQuantile } from "./normal-quantile.ts";
import { exp } from "./portable-exp.ts";
import { log } from "./portable-log.ts";

/**
 * Quantile of chi-square.
 *
 *   x with F(x; ν) = P(ν/2, x/2) = p
 *
 * @param p - probability below the quantile; 0 ≤ p ≤ 1
 * @param dof - ν, degrees of freedom; real, > 0 (well below 1 and up to 1e7 tried)
 * @returns x ≥ 0; ∞ for p = 1; relative error about 1e-12. A result below 1e-300 comes back as 0
 * @throws RangeError if p or dof is out of range
 *
 * Source: DLMF 8.2.4 with the definition of the distribution; start from E. B. Wilson, M. M. Hilferty 1931 or the first term of the series; Newton's steps
 * on the logarithms of the smaller tail and of x. Exact case: −2·ln(1 − p) for ν = 2.
 */
export function chiSquareQuantile(p: number, dof: number): number {
  if (!(dof > 0 && dof < Infinity)) {
    throw new RangeError(`chiSquareQuantile: dof must be > 0 and finite, got ${dof}`);
  }
  if (!(p >= 0 && p <= 1)) {
    throw new RangeError(`chiSquareQuantile: p must be >= 0 and <= 1, got ${p}`);
  }
  if (p === 0 || p === 1) {
    return p === 0 ? 0 : Infinity;
  }
  const a = 0.5 * dof;
  // P(a, x) < xᵃ/Γ(a + 1) gives a lower bound of ln x, good where x is small.
  const bound = (log(p) + lnGamma(a + 1)) / a;
  if (bound < -690) {
    return 0;
  }
  const ninth = 2 / (9 * dof);
  const cubeRoot = 1 - ninth + normalQuantile(p) * Math.sqrt(ninth);
  const guess =
    cubeRoot > 0.2 ? log(a * cubeRoot * cubeRoot * cubeRoot) : Math.max(bound, -690) + 1e-3;
  const high = log(a + 40 * Math.sqrt(a) + 800);
  const low = Math.min(bound - 1, guess - 1);
  const lower = p <= 0.5;
  const target = lower ? log(p) : log(1 - p);
  const tail = (x: number) => (lower ? lowerIncompleteGamma(a, x) : upperIncompleteGamma(a, x));
  const root = monotoneRoot(
    (u) => log(tail(exp(u))) - target,
    (u) => {
      const x = exp(u);
      return (lower ? gammaDensityTimesX(a, x) : -gammaDensityTimesX(a, x)) / tail(x);
    },
    low,
    high,
    Math.min(Math.max(guess, low), high),
  );
  return 2 * exp(root);
}
