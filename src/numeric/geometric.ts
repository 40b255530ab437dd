import { log, log1p } from "./portable-log.ts";
import type { RandomStream } from "./random-stream.ts";

/**
 * A geometric deviate: trials up to and including the first success.
 *
 *   P(X = k) = p·(1 − p)^(k−1), k = 1, 2, …
 *
 * @param stream - source of randomness; advanced by one uniform deviate, by none if p = 1
 * @param p - probability of success in one trial; 0 < p ≤ 1
 * @returns integer ≥ 1 of mean 1/p and variance (1 − p)/p²
 * @throws RangeError if p is not in (0, 1]
 *
 * Source: inversion, P(X > k) = (1 − p)ᵏ. Exact case: 1 always for p = 1.
 */
export function geometric(stream: RandomStream, p: number): number {
  if (!(p > 0 && p <= 1)) {
    throw new RangeError(`geometric: p must be > 0 and <= 1, got ${p}`);
  }
  return p === 1 ? 1 : 1 + Math.floor(log(stream.uniform()) / log1p(-p));
}
