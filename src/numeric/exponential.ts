import { log } from "./portable-log.ts";
import type { RandomStream } from "./random-stream.ts";

/**
 * An exponential deviate of unit mean.
 *
 *   −ln u, u uniform on (0, 1)
 *
 * @param stream - source of randomness; advanced by one uniform deviate
 * @returns deviate > 0 of mean 1 and variance 1; dimensionless
 *
 * Source: inversion of F(x) = 1 − e⁻ˣ. Exact law: P(X > x) = e⁻ˣ.
 */
export function exponential(stream: RandomStream): number {
  return -log(stream.uniform());
}
