import { devianceTerm } from "./deviance-term.ts";
import { exp } from "./portable-exp.ts";
import { stirlingError } from "./stirling-error.ts";

const twoPi = 2 * Math.PI;
/** Keeps Lentz's denominators from zero. */
const tiny = 1e-300;
/** Terms after which a sum is given up; shapes of 1e7 need some ten thousand. */
const mostTerms = 10_000_000;

/** xᵃ·yᵇ/B(a, b) in Loader's form for real a and b, y = 1 − x. */
function densityTimesXY(a: number, b: number, x: number, y: number): number {
  const n = a + b;
  const power =
    stirlingError(n) -
    stirlingError(a) -
    stirlingError(b) -
    devianceTerm(a, n * x) -
    devianceTerm(b, n * y);
  return Math.sqrt((a * b) / (n * twoPi)) * exp(power);
}

/**
 * Continued fraction 1/(β₁ + α₂/(β₂ + …)) of I_x(a, b) without its factor xᵃ·yᵇ/B(a, b), by Lentz's
 * method. It takes 1 − x from y and λ = (a + b)·y − b = a − (a + b)·x as given, so that neither x close to 1 nor
 * y close to 1 loses anything.
 */
function fraction(a: number, b: number, x: number, y: number, lambda: number): number {
  let value = (a / (a + 1)) * (lambda + 1);
  value = Math.abs(value) < tiny ? tiny : value;
  let c = value;
  let d = 0;
  for (let n = 1; n <= mostTerms; n++) {
    const s = a + 2 * n - 1;
    const w = (n * (b - n) * x) / s;
    const alpha = ((a + n - 1) * (a + b + n - 1) * w * x) / s;
    const beta = n + w + ((a + n) / (s + 2)) * (lambda + 1 + n * (1 + y));
    d = beta + alpha * d;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = beta + alpha / c;
    c = Math.abs(c) < tiny ? tiny : c;
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) < 1e-15) {
      return 1 / value;
    }
  }
  throw new RangeError(`incompleteBeta: no convergence for shapes ${a} and ${b} at ${x}`);
}

/**
 * I_x(a, b) without its factor xᵃ·yᵇ/B(a, b), by the series Σ (a + b)ₖ/(a)ₖ₊₁·xᵏ, all of whose terms are
 * positive; for x not much above its mean a/(a + b).
 */
function series(a: number, b: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let k = 1; k <= mostTerms; k++) {
    term *= ((a + b + k - 1) / (a + k)) * x;
    sum += term;
    if (term < 1e-17 * sum) {
      return sum;
    }
  }
  throw new RangeError(`incompleteBeta: no convergence for shapes ${a} and ${b} at ${x}`);
}

/**
 * Regularized incomplete beta function.
 *
 *   I_x(a, b) = 1/B(a, b)·∫ t^(a−1)·(1 − t)^(b−1) dt from 0 to x
 *
 * @param a - first shape; > 0
 * @param b - second shape; > 0
 * @param x - upper limit; 0 ≤ x ≤ 1
 * @param y - 1 − x, given apart where x is so close to 1 that the difference would lose digits
 * @returns I_x(a, b), 0 … 1; relative error about 1e-13 where it is the smaller of I and 1 − I
 * @throws RangeError if an argument is out of range, or so large that the sum does not converge
 *
 * Source: A. R. DiDonato, A. H. Morris, ACM TOMS 18(3), 1992, eq. 9 (continued fraction); DLMF 8.17.8
 * (series), 8.17.4 (symmetry). Exact case: I_x(1, b) = 1 − (1 − x)ᵇ.
 */
export function incompleteBeta(a: number, b: number, x: number, y: number = 1 - x): number {
  if (!(a > 0 && a < Infinity && b > 0 && b < Infinity)) {
    throw new RangeError(`incompleteBeta: a and b must be > 0 and finite, got ${a} and ${b}`);
  }
  if (!(x >= 0 && x <= 1 && y >= 0 && y <= 1)) {
    throw new RangeError(`incompleteBeta: x and y must be within 0 … 1, got ${x} and ${y}`);
  }
  if (x === 0 || y === 0) {
    return x === 0 ? 0 : 1;
  }
  const density = densityTimesXY(a, b, x, y);
  // The fraction is for x two counts below its mean or y below its; near both means, where it would
  // converge slowly and lose digits, the series in the smaller of the two takes over.
  // From the smaller of x and y, since the other may have lost its last digits.
  const below = x < y ? a - (a + b) * x : (a + b) * y - b;
  if (below >= 2) {
    return density * fraction(a, b, x, y, below);
  }
  if (below <= -2) {
    return 1 - density * fraction(b, a, y, x, -below);
  }
  return x < y ? density * series(a, b, x) : 1 - density * series(b, a, y);
}
