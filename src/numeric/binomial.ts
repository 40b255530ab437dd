import { devianceTerm } from "./deviance-term.ts";
import { exp } from "./portable-exp.ts";
import { log, log1p } from "./portable-log.ts";
import type { RandomStream } from "./random-stream.ts";
import { stirlingError } from "./stirling-error.ts";

const twoPi = 2 * Math.PI;

/**
 * A binomial deviate, exact for small and large n·p: successes in n independent trials.
 *
 *   P(X = k) = C(n, k)·pᵏ·(1 − p)^(n−k)
 *
 * @param stream - source of randomness; advanced by none if n = 0, p = 0 or p = 1
 * @param n - number of trials; integer, 0 ≤ n ≤ 2⁵³
 * @param p - probability of success in one trial; 0 ≤ p ≤ 1
 * @returns integer, 0 ≤ X ≤ n, of mean n·p and variance n·p·(1 − p)
 * @throws RangeError if n or p is out of range
 *
 * Source: for n·p < 10 inversion by adding up probabilities; above, transformed rejection (BTRS),
 * W. Hörmann, "The generation of binomial random variates", J. Stat. Comput. Simul. 46, 1993.
 * Exact case: n always for p = 1.
 */
export function binomial(stream: RandomStream, n: number, p: number): number {
  if (!Number.isInteger(n) || n < 0 || n > 9007199254740992) {
    throw new RangeError(`binomial: n must be an integer >= 0 and <= 2^53, got ${n}`);
  }
  if (!(p >= 0 && p <= 1)) {
    throw new RangeError(`binomial: p must be >= 0 and <= 1, got ${p}`);
  }
  if (p > 0.5) {
    return n - binomial(stream, n, 1 - p);
  }
  if (n === 0 || p === 0) {
    return 0;
  }
  return n * p < 10 ? binomialByInversion(stream, n, p) : binomialByRejection(stream, n, p);
}

function binomialByInversion(stream: RandomStream, n: number, p: number): number {
  const odds = p / (1 - p);
  let left = stream.uniform();
  let probability = exp(n * log1p(-p));
  let k = 0;
  // Beyond a hundred the probabilities are below the resolution of the deviate.
  const last = Math.min(n, 100);
  while (left > probability && k < last) {
    left -= probability;
    probability *= (odds * (n - k)) / (k + 1);
    k += 1;
  }
  return k;
}

function binomialByRejection(stream: RandomStream, n: number, p: number): number {
  const spread = Math.sqrt(n * p * (1 - p));
  const b = 1.15 + 2.53 * spread;
  const a = -0.0873 + 0.0248 * b + 0.01 * p;
  const squeeze = 0.92 - 4.2 / b;
  const alpha = (2.83 + 5.1 / b) * spread;
  const mode = Math.floor((n + 1) * p);
  const atMode = logProbability(mode, n, p);
  for (;;) {
    const u = stream.uniform() - 0.5;
    const v = stream.uniform();
    const us = 0.5 - Math.abs(u);
    const k = Math.floor(((2 * a) / us + b) * u + n * p + 0.5);
    if (us >= 0.07 && v <= squeeze) {
      return k;
    }
    if (k < 0 || k > n) {
      continue;
    }
    if (log((v * alpha) / (a / (us * us) + b)) <= logProbability(k, n, p) - atMode) {
      return k;
    }
  }
}

/** ln P(X = k) in Loader's form, which keeps its accuracy at any n; 0 < p < 1. */
function logProbability(k: number, n: number, p: number): number {
  if (k === 0) {
    return n * log1p(-p);
  }
  if (k === n) {
    return n * log(p);
  }
  return (
    stirlingError(n) -
    stirlingError(k) -
    stirlingError(n - k) -
    devianceTerm(k, n * p) -
    devianceTerm(n - k, n * (1 - p)) -
    0.5 * log((twoPi * k * (n - k)) / n)
  );
}
