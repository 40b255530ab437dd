import { incompleteBeta } from "./incomplete-beta.ts";
import { lnGamma } from "./ln-gamma.ts";
import { monotoneRoot } from "./monotone-root.ts";
import { exp } from "./portable-exp.ts";
import { log, log1p } from "./portable-log.ts";
import { stirlingError } from "./stirling-error.ts";

/** P(T > t) for t ≥ 0. */
function upperTail(t: number, dof: number): number {
  const n = dof + t * t;
  return n < Infinity ? 0.5 * incompleteBeta(0.5 * dof, 0.5, dof / n, (t * t) / n) : 0;
}

/** P(0 < T < t) for t ≥ 0. */
function body(t: number, dof: number): number {
  const n = dof + t * t;
  return n < Infinity ? 0.5 * incompleteBeta(0.5, 0.5 * dof, (t * t) / n, dof / n) : 0.5;
}

/** ln of the density at 0: ln Γ((ν + 1)/2) − ln Γ(ν/2) − ½·ln(πν), without cancellation at large ν. */
function logDensityAtZero(dof: number): number {
  const half = 0.5 * dof;
  if (dof < 20) {
    return lnGamma(half + 0.5) - lnGamma(half) - 0.5 * log(Math.PI * dof);
  }
  return (
    half * log1p(0.5 / half) -
    0.5 +
    stirlingError(half + 0.5) -
    stirlingError(half) -
    0.5 * log(2 * Math.PI)
  );
}

/**
 * Distribution function of Student's t.
 *
 *   F(t; ν) = 1 − ½·I_{ν/(ν+t²)}(ν/2, ½) for t ≥ 0
 *
 * @param t - argument; any number
 * @param dof - ν, degrees of freedom; real, > 0
 * @returns probability below t, 0 … 1; relative error about 1e-13 where it is ≤ ½
 * @throws RangeError if dof is not positive and finite, or t is NaN
 *
 * Source: M. Abramowitz, I. A. Stegun, 26.7.1. Exact case: ½ + arctan(t)/π for ν = 1.
 */
export function studentCdf(t: number, dof: number): number {
  checkDof("studentCdf", dof);
  if (Number.isNaN(t)) {
    throw new RangeError(`studentCdf: t must be a number, got ${t}`);
  }
  if (t < 0) {
    return upperTail(-t, dof);
  }
  return t * t < dof ? 0.5 + body(t, dof) : 1 - upperTail(t, dof);
}

/**
 * Quantile of Student's t.
 *
 *   t with F(t; ν) = p
 *
 * @param p - probability below the quantile; 0 ≤ p ≤ 1
 * @param dof - ν, degrees of freedom; real, > 0 (0.1 … 1e7 tried)
 * @returns t; −∞ for 0, ∞ for 1; relative error about 1e-12
 * @throws RangeError if p or dof is out of range
 *
 * Source: Newton's steps on the logarithms of the smaller of body and tail and of t.
 * Exact case: tan(π(p − ½)) for ν = 1.
 */
export function studentQuantile(p: number, dof: number): number {
  checkDof("studentQuantile", dof);
  if (!(p >= 0 && p <= 1)) {
    throw new RangeError(`studentQuantile: p must be >= 0 and <= 1, got ${p}`);
  }
  return p < 0.5 ? -upperQuantile(p, 0.5 - p, dof) : upperQuantile(1 - p, p - 0.5, dof);
}

/** t ≥ 0 with the given probability beyond it, and the given one between 0 and it. */
function upperQuantile(beyond: number, within: number, dof: number): number {
  if (within === 0 || beyond === 0) {
    return within === 0 ? 0 : Infinity;
  }
  const logDensity = logDensityAtZero(dof);
  const inBody = within < beyond;
  const target = log(inBody ? within : beyond);
  const part = inBody ? body : upperTail;
  // The density falls from t = 0 on, so this is below the quantile.
  const low = log(within) - logDensity - 1e-9;
  let high = Math.max(low, 0) + 1;
  while (high < 700 && log(part(exp(high), dof)) < target === inBody) {
    high += 1;
  }
  const root = monotoneRoot(
    (u) => log(part(exp(u), dof)) - target,
    (u) => {
      const t = exp(u);
      const density = exp(logDensity - 0.5 * (dof + 1) * log1p((t * t) / dof));
      return ((inBody ? t : -t) * density) / part(t, dof);
    },
    low,
    high,
    inBody ? low + 1e-9 : 0.5 * (Math.max(low, 0) + high),
  );
  return exp(root);
}

function checkDof(name: string, dof: number): void {
  if (!(dof > 0 && dof < Infinity)) {
    throw new RangeError(`${name}: dof must be > 0 and finite, got ${dof}`);
  }
}
