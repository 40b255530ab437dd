import { type Complex, divide, exponentialLess1, multiply } from "../theory/index.ts";
import type { StampWeighting } from "./lag-weight.ts";

/**
 * Σ_j Σ_k w_j·w_k·ρ^|j−k|, ρ = e^rate: what a decay does to an estimate, whatever its length and however often
 * it swings in between.
 *
 *   2·Σ_{m=0}^{N−1} A(m)·ρ^m − A(0), A the `lagWeight`: a polynomial, summed by
 *   Σ_{m<M} A(m)·ρ^m = Σ_j ρ^j/(1 − ρ)^{j+1}·[Δ^jA(0) − ρ^M·Δ^jA(M)]
 *
 * @param weighting - of a line
 * @param rate - logarithm of what one lag leaves of the decay; real part < 0
 * @returns 1/s²; digits are lost as 1/(|rate|·N)³ where the decay outlasts the run
 *
 * Source: summation by parts, Abel's formula for a polynomial. Exact case: a decay gone within one lag leaves A(0).
 */
export function lagSum(weighting: StampWeighting, rate: Complex): Complex {
  const { stamps: n, spacing } = weighting;
  const norm = (12 / (n * (n * n - 1) * spacing)) ** 2;
  // (N³ − N)/12 − (3N² − 1)·m/12 + m³/6, with its forward differences at 0 and at N.
  const own = (n * n * n - n) / 12;
  const start = [own, (1 - n * n) / 4, 1, 1];
  const sum = polynomialSum(start, [0, ((n + 1) * (n + 1)) / 4, n + 1, 1], rate, n);
  return { re: norm * (2 * sum.re - own), im: norm * 2 * sum.im };
}

/**
 * Σ_{m=0}^{count−1} A(m)·ρ^m.
 *
 * @param start - A(0), ΔA(0), Δ²A(0), … as far as they are not zero
 * @param end - the same at `count`
 */
function polynomialSum(
  start: readonly number[],
  end: readonly number[],
  rate: Complex,
  count: number,
): Complex {
  const ratio = power(rate, 1);
  const last = power(rate, count);
  const change = exponentialLess1(rate);
  const left = { re: -change.re, im: -change.im };
  let factor = divide({ re: 1, im: 0 }, left);
  let re = 0;
  let im = 0;
  start.forEach((difference, j) => {
    const bracket = { re: difference - end[j]! * last.re, im: -end[j]! * last.im };
    const term = multiply(factor, bracket);
    re += term.re;
    im += term.im;
    factor = multiply(factor, divide(ratio, left));
  });
  return { re, im };
}

/** ρ^m. */
function power(rate: Complex, m: number): Complex {
  const size = Math.exp(rate.re * m);
  return { re: size * Math.cos(rate.im * m), im: size * Math.sin(rate.im * m) };
}
