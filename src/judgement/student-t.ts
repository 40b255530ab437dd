import { erfc, incompleteBeta } from "../numeric/index.ts";

/**
 * Probability that Student's t lies within ±t: P(|T| <= t) = 1 − I_{ν/(ν+t²)}(ν/2, 1/2).
 *
 * @param t - limit; dimensionless, >= 0
 * @param dof - degrees of freedom ν; > 0, Infinity for the normal distribution
 * @returns the probability; dimensionless, 0 to 1
 * @throws RangeError if t or dof is outside its range
 *
 * Source: Abramowitz & Stegun, 26.7.1 and 26.7.8.
 * Exact case: one degree of freedom, P = (2/π)·atan t.
 */
export function studentWithin(t: number, dof: number): number {
  if (!(t >= 0)) throw new RangeError(`studentWithin: t must be >= 0, got ${t}`);
  if (!(dof > 0)) throw new RangeError(`studentWithin: dof must be > 0, got ${dof}`);
  if (t === 0) return 0;
  if (t === Number.POSITIVE_INFINITY) return 1;
  // Beyond this the corrected normal (26.7.8) agrees to 1e-12.
  if (dof > 1e6) {
    return 1 - erfc((t * (1 - 1 / (4 * dof))) / Math.hypot(Math.SQRT2, t / Math.sqrt(dof)));
  }
  const square = t * t;
  const [body, tail] = [square / (dof + square), dof / (dof + square)];
  return square < dof
    ? incompleteBeta(0.5, 0.5 * dof, body, tail)
    : 1 - incompleteBeta(0.5 * dof, 0.5, tail, body);
}
