import { erfcx } from "./erfc.ts";
import { normalCdf } from "./normal-cdf.ts";
import { exp } from "./portable-exp.ts";
import { log } from "./portable-log.ts";

/** √(2π). */
const rootTwoPi = 2.5066282746310002;
/** √(π/2). */
const rootHalfPi = 1.2533141373155001;
/** Tails below this are compared by their logarithm: Φ has lost its digits there, and 1/φ overflows. */
const farTail = 1e-300;

/**
 * Quantile of the standard Gaussian.
 *
 *   z with Φ(z) = p
 *
 * @param p - probability below the quantile; 0 ≤ p ≤ 1
 * @returns z; −∞ for 0, ∞ for 1; error below 1e-14
 * @throws RangeError if p is not in [0, 1]
 *
 * Source: start from M. Abramowitz, I. A. Stegun, 26.2.23 (error 4.5e-4), then Halley's steps.
 * Exact case: 0 for p = ½.
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) {
    throw new RangeError(`normalQuantile: p must be >= 0 and <= 1, got ${p}`);
  }
  if (p === 0.5) {
    return 0;
  }
  // The smaller tail carries the accuracy; 1 − p is exact where p > ½.
  const tail = p < 0.5 ? p : 1 - p;
  if (tail === 0) {
    return p < 0.5 ? -Infinity : Infinity;
  }
  const t = Math.sqrt(-2 * log(tail));
  let z =
    (2.515517 + t * (0.802853 + t * 0.010328)) /
      (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))) -
    t;
  for (let step = 0; step < 3; step++) {
    const error = tail < farTail ? excessFarOut(z, tail) : excess(z, tail);
    z -= error / (1 + 0.5 * z * error);
  }
  return p < 0.5 ? z : -z;
}

/** (Φ(z) − tail)/φ(z). */
function excess(z: number, tail: number): number {
  return (normalCdf(z) - tail) * rootTwoPi * exp(0.5 * z * z);
}

/** The same for z so far below zero that Φ(z) = φ(z)·√(π/2)·erfcx(−z/√2) is best left as a product. */
function excessFarOut(z: number, tail: number): number {
  return rootHalfPi * erfcx(-z * Math.SQRT1_2) - rootTwoPi * exp(log(tail) + 0.5 * z * z);
}
