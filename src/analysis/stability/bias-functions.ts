import { pow } from "../../numeric/index.ts";

/** Beyond this argument second differences of powers are summed as a series, which does not cancel. */
const largeArgument = 100;

/**
 * Ratio of the N-sample variance to the two-sample variance, readings back to back.
 *
 *   B₁(N, 1, μ) = N(1 − N^μ) / [2(N − 1)(1 − 2^μ)];  μ = 0: N·ln N / [2(N − 1)·ln 2]
 *
 * @param n - N, readings in the variance; integer >= 2
 * @param mu - exponent of σ²(τ) ∝ τ^μ; −2 <= μ <= 2
 * @returns B₁; dimensionless
 * @throws RangeError if n or mu is outside its range
 *
 * Source: J. Barnes, NBS TN 375 (1969). Exact: 1 for N = 2 whatever μ, and for white FM (μ = −1) whatever N.
 */
export function bias1(n: number, mu: number): number {
  if (!Number.isInteger(n) || n < 2) {
    throw new RangeError(`bias1: n must be an integer >= 2, got ${n}`);
  }
  requireExponent("bias1", mu);
  if (mu === 0) return (n * Math.log(n)) / (2 * (n - 1) * Math.LN2);
  return (n * -Math.expm1(mu * Math.log(n))) / (2 * (n - 1) * -Math.expm1(mu * Math.LN2));
}

/**
 * Ratio of the two-sample variance with dead time to that without.
 *
 *   B₂(r, μ) = {1 + ½[2r^{μ+2} − (r + 1)^{μ+2} − |r − 1|^{μ+2}]} / [2(1 − 2^μ)], its limit at μ = 0
 *
 * @param r - spacing of the starts of readings over their length; > 0 (1 = back to back, below 1 = overlapping)
 * @param mu - exponent of σ²(τ) ∝ τ^μ; −2 <= μ <= 2
 * @returns B₂; dimensionless
 * @throws RangeError if r or mu is outside its range
 *
 * Source: J. Barnes, NBS TN 375 (1969). Exact: 1 for r = 1; white FM (μ = −1): r for r < 1, 1 above; μ = −2: 2/3.
 */
export function bias2(r: number, mu: number): number {
  requireRatio("bias2", r);
  requireExponent("bias2", mu);
  return mu === 0
    ? powerSlope(r) / (-4 * Math.LN2)
    : (2 + powerDifference(r, mu)) / (-4 * Math.expm1(mu * Math.LN2));
}

/**
 * Ratio of the two-sample variance of readings put together from M short ones, each with its dead time, to the
 * two-sample variance with the same gate and dead time in one piece: σ²(2, M, T, τ) / σ²(2, 1, MT, Mτ).
 *
 *   B₃(2, M, r, μ) = {2M + M·F(Mr) − Σ_{n=1}^{M−1} (M − n)[2F(nr) − F((M+n)r) − F((M−n)r)]} / {M^{μ+2}[F(r) + 2]},
 *   F(A) = 2A^{μ+2} − (A + 1)^{μ+2} − |A − 1|^{μ+2}, its limit at μ = 0
 *
 * Some texts print +F((M − n)r), which can turn negative; the sign here agrees with the direct covariance.
 *
 * @param count - M, short readings in each long one; integer >= 1
 * @param r - spacing of the starts of short readings over their length; > 0
 * @param mu - exponent of σ²(τ) ∝ τ^μ; −2 <= μ <= 2
 * @returns B₃(2, M, r, μ); dimensionless
 * @throws RangeError if an argument is outside its range
 *
 * Source: J. Barnes and D. Allan, NIST TN 1318 (1990). Exact: 1 for M = 1 and for r = 1; μ = −2 and r > 1: M.
 */
export function bias3(count: number, r: number, mu: number): number {
  if (!Number.isInteger(count) || count < 1) {
    throw new RangeError(`bias3: count must be an integer >= 1, got ${count}`);
  }
  requireRatio("bias3", r);
  requireExponent("bias3", mu);
  const f = (a: number): number => (mu === 0 ? powerSlope(a) : powerDifference(a, mu));
  const constant = mu === 0 ? 0 : 2;
  let sum = count * (constant + f(count * r));
  for (let n = 1; n < count; n++) {
    sum -= (count - n) * (2 * f(n * r) - f((count + n) * r) - f((count - n) * r));
  }
  return sum / (pow(count, mu + 2) * (f(r) + constant));
}

/** F(A) = 2A^a − (A+1)^a − |A−1|^a with a = μ + 2; by −2·Σ C(a, 2k)·A^{a−2k} where A is large. */
function powerDifference(argument: number, mu: number): number {
  const a = mu + 2;
  if (argument <= largeArgument) {
    return 2 * power(argument, a) - power(argument + 1, a) - power(Math.abs(argument - 1), a);
  }
  let binomial = 1;
  let sum = 0;
  for (let k = 0; k < 8; k += 2) {
    binomial *= ((a - k) * (a - k - 1)) / ((k + 1) * (k + 2));
    sum -= 2 * binomial * pow(argument, a - k - 2);
  }
  return sum;
}

/** dF/dμ at μ = 0: 2A²·ln A − (A+1)²·ln(A+1) − (A−1)²·ln|A−1|; −2 ln A − 3 + 1/(6A²) + … where A is large. */
function powerSlope(argument: number): number {
  if (argument > largeArgument) {
    const square = argument * argument;
    return -2 * Math.log(argument) - 3 + 1 / (6 * square) + 1 / (30 * square * square);
  }
  const term = (v: number): number => (v === 0 ? 0 : v * v * Math.log(v));
  return 2 * term(argument) - term(argument + 1) - term(Math.abs(argument - 1));
}

/** v^a, with 0^0 = 0: at μ = −2 errors of edges that coincide cancel. */
function power(v: number, a: number): number {
  return v === 0 ? 0 : pow(v, a);
}

function requireExponent(caller: string, mu: number): void {
  if (!(mu >= -2 && mu <= 2)) {
    throw new RangeError(`${caller}: mu must be between -2 and 2, got ${mu}`);
  }
}

function requireRatio(caller: string, r: number): void {
  if (!(r > 0 && r < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`${caller}: r must be > 0 and finite, got ${r}`);
  }
}
