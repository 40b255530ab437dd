import { devianceTerm } from "./deviance-term.ts";
import { exp } from "./portable-exp.ts";
import { stirlingError } from "./stirling-error.ts";

const twoPi = 2 * Math.PI;
/** Keeps Lentz's denominators from zero. */
const tiny = 1e-300;

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

/** Continued fraction of I_x(a, b) by Lentz's method, without its factor xᵃ·yᵇ/(a·B(a, b)). */
function fraction(a: number, b: number, x: number): number {
  const n = a + b;
  let c = 1;
  let d = 1 - (n * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let value = d;
  for (let m = 1; ; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 + even * d;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = 1 + even / c;
    c = Math.abs(c) < tiny ? tiny : c;
    value *= d * c;
    const odd = (-(a + m) * (n + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 + odd * d;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = 1 + odd / c;
    c = Math.abs(c) < tiny ? tiny : c;
    const factor = d * c;
    value *= factor;
    if (Math.abs(factor - 1) < 4e-16) {
      return value;
    }
  }
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
 * @throws RangeError if an argument is out of range
 *
 * Source: DLMF 8.17.22 (continued fraction), 8.17.4 (symmetry). Exact case: I_x(1, b) = 1 − (1 − x)ᵇ.
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
  if (x < (a + 1) / (a + b + 2)) {
    return (density / a) * fraction(a, b, x);
  }
  return 1 - (density / b) * fraction(b, a, y);
}
