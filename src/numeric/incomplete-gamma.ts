import { devianceTerm } from "./deviance-term.ts";
import { exp } from "./portable-exp.ts";
import { stirlingError } from "./stirling-error.ts";

const twoPi = 2 * Math.PI;
/** Keeps Lentz's denominators from zero. */
const tiny = 1e-300;
/** Terms after which a sum is given up; shapes of 1e7 need some ten thousand. */
const mostTerms = 10_000_000;

/**
 * Density of the gamma distribution of unit scale, times x.
 *
 *   xᵃ·e⁻ˣ/Γ(a)
 *
 * @param a - shape; > 0
 * @param x - argument; > 0
 * @returns dimensionless, ≥ 0; relative error about 1e-15 times the logarithm's size
 *
 * Source: C. Loader 2000, for real a. Exact case: x·e⁻ˣ for a = 1.
 */
export function gammaDensityTimesX(a: number, x: number): number {
  return Math.sqrt(a / twoPi) * exp(-stirlingError(a) - devianceTerm(a, x));
}

/** Σ xᵏ/((a + 1)…(a + k)), k ≥ 0: P(a, x) is this times the density over a. */
function lowerSeries(a: number, x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; k <= mostTerms; k++) {
    term *= x / (a + k);
    sum += term;
    if (term < 1e-17 * sum) {
      return sum;
    }
  }
  throw new RangeError(`incompleteGamma: no convergence for shape ${a} at ${x}`);
}

/** Continued fraction of Γ(a, x)·eˣ·x⁻ᵃ by Lentz's method: Q(a, x) is this times the density. */
function upperFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let value = d;
  for (let k = 1; k <= mostTerms; k++) {
    const numerator = -k * (k - a);
    b += 2;
    d = numerator * d + b;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = b + numerator / c;
    c = Math.abs(c) < tiny ? tiny : c;
    const factor = d * c;
    value *= factor;
    if (Math.abs(factor - 1) < 1e-15) {
      return value;
    }
  }
  throw new RangeError(`incompleteGamma: no convergence for shape ${a} at ${x}`);
}

function checkArguments(name: string, a: number, x: number): void {
  if (!(a > 0 && a < Infinity)) {
    throw new RangeError(`${name}: a must be > 0 and finite, got ${a}`);
  }
  if (!(x >= 0)) {
    throw new RangeError(`${name}: x must be >= 0, got ${x}`);
  }
}

/**
 * Regularized lower incomplete gamma function.
 *
 *   P(a, x) = 1/Γ(a)·∫ t^(a−1)·e^(−t) dt from 0 to x
 *
 * @param a - shape; > 0
 * @param x - upper limit; ≥ 0, or ∞
 * @returns P, 0 … 1; relative error about 1e-13 where P ≤ ½
 * @throws RangeError if a or x is out of range, or a so large (about 1e12) that the sum does not converge
 *
 * Source: DLMF 8.11.4 (series) and 8.9.2 (continued fraction). Exact case: P(1, x) = 1 − e⁻ˣ.
 */
export function lowerIncompleteGamma(a: number, x: number): number {
  checkArguments("lowerIncompleteGamma", a, x);
  if (x === 0) {
    return 0;
  }
  if (x === Infinity) {
    return 1;
  }
  const density = gammaDensityTimesX(a, x);
  return x < a + 1 ? (density / a) * lowerSeries(a, x) : 1 - density * upperFraction(a, x);
}

/**
 * Regularized upper incomplete gamma function.
 *
 *   Q(a, x) = 1 − P(a, x)
 *
 * @param a - shape; > 0
 * @param x - lower limit; ≥ 0, or ∞
 * @returns Q, 0 … 1; relative error about 1e-13 where Q ≤ ½ and x ≥ a + 1
 * @throws RangeError if a or x is out of range, or a so large (about 1e12) that the sum does not converge
 *
 * Source: as `lowerIncompleteGamma`. Exact case: Q(1, x) = e⁻ˣ.
 */
export function upperIncompleteGamma(a: number, x: number): number {
  checkArguments("upperIncompleteGamma", a, x);
  if (x === 0) {
    return 1;
  }
  if (x === Infinity) {
    return 0;
  }
  const density = gammaDensityTimesX(a, x);
  return x < a + 1 ? 1 - (density / a) * lowerSeries(a, x) : density * upperFraction(a, x);
}
