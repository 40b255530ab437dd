import type { RandomStream } from "./random-stream.ts";

/**
 * An inverse Gaussian deviate: first-passage time of a Brownian motion with drift.
 *
 *   density √(λ/(2πx³))·exp(−λ(x − μ)²/(2μ²x)), x > 0
 *
 * A level a reached under drift v and diffusion σ²: μ = a/v, λ = a²/σ².
 *
 * @param stream - source of randomness; advanced by one Gaussian and one uniform deviate
 * @param mean - μ; > 0, in the unit of the result
 * @param shape - λ; > 0, in the unit of the result
 * @returns deviate > 0 of mean μ and variance μ³/λ
 * @throws RangeError if mean or shape is not positive and finite
 *
 * Source: J. R. Michael, W. R. Schucany, R. W. Haas, "Generating Random Variates Using Transformations
 * with Multiple Roots", Am. Stat. 30(2), 1976; the smaller root without cancellation.
 */
export function inverseGaussian(stream: RandomStream, mean: number, shape: number): number {
  if (!(mean > 0 && mean < Infinity)) {
    throw new RangeError(`inverseGaussian: mean must be > 0 and finite, got ${mean}`);
  }
  if (!(shape > 0 && shape < Infinity)) {
    throw new RangeError(`inverseGaussian: shape must be > 0 and finite, got ${shape}`);
  }
  const z = stream.normal();
  const w = (mean * z * z) / (2 * shape);
  // The two roots of λ(x − μ)² = μ²z²x are μ/larger and μ·larger.
  const larger = 1 + w + Math.sqrt(w * (2 + w));
  return stream.uniform() * (1 + 1 / larger) <= 1 ? mean / larger : mean * larger;
}
