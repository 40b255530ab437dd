import { log } from "./portable-log.ts";
import { stirlingError } from "./stirling-error.ts";

/** ½·ln 2π. */
const halfLogTwoPi = 0.9189385332046728;

/**
 * Natural logarithm of the gamma function.
 *
 *   ln Γ(x) = (x − ½)·ln x − x + ½·ln 2π + δ(x), δ the error of Stirling's formula
 *
 * @param x - argument; > 0
 * @returns ln Γ(x); error below 4e-15 or 4e-16 of the largest term, whichever is greater
 * @throws RangeError if x is not positive
 *
 * Source: DLMF 5.11.1. Exact case: ln Γ(n + 1) = ln n!.
 */
export function lnGamma(x: number): number {
  if (!(x > 0)) {
    throw new RangeError(`lnGamma: x must be > 0, got ${x}`);
  }
  return (x - 0.5) * log(x) - x + halfLogTwoPi + stirlingError(x);
}
